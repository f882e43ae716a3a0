namespace SensorLab.Measurement.Sets;

/// <summary>One exposure at one ISO.</summary>
/// <param name="Key">What its frames share.</param>
/// <param name="Frames">One frame or more, in the order in which they were taken.</param>
public sealed record Level(LevelKey Key, IReadOnlyList<SetFrame> Frames);
