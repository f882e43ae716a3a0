namespace SensorLab.Profiles.Placement;

/// <summary>One setting of a dial in thirds of a stop.</summary>
/// <param name="Label">What the camera shows: 1/60, 5.6, 125.</param>
/// <param name="Thirds">
/// What it is, in whole thirds of a stop: 3 log2 of the shutter time in seconds, 6 log2 of the f-number, 3 log2 of ISO/100.
/// </param>
public readonly record struct ThirdStop(string Label, int Thirds);
