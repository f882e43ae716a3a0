namespace SensorLab.Profiles;

/// <summary>One body with one firmware; null where the frames do not say.</summary>
/// <param name="Maker">The maker.</param>
/// <param name="Model">The model.</param>
/// <param name="SerialNumber">The serial number; null in an anonymous profile.</param>
/// <param name="Firmware">The firmware's version.</param>
public sealed record BodyIdentity(string? Maker, string? Model, string? SerialNumber, string? Firmware);
