namespace SensorLab.Bench;

/// <summary>A profile of the same body that was kept, to compare with.</summary>
/// <param name="Label">What tells it from others: its firmware and time.</param>
/// <param name="Path">Full path of its file.</param>
public sealed record EarlierProfile(string Label, string Path);
