namespace SensorLab.Cli;

/// <summary>A setting.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Option">The option that it stands in for.</param>
/// <param name="Description">What it is.</param>
/// <param name="Expected">What its word should be.</param>
/// <param name="IsSound">Whether a word is that.</param>
internal sealed record SettingName(string Name, string Option, string Description, string Expected, Func<string, bool> IsSound);
