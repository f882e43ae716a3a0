namespace SensorLab.Profiles;

/// <summary>What wrote a profile.</summary>
/// <param name="Name">The program's name.</param>
/// <param name="Version">Its version.</param>
public sealed record SoftwareIdentity(string Name, string Version);
