namespace SensorLab.Profiles;

/// <summary>What one frame's 8-bit preview shows of the region measured: the middle code of each channel.</summary>
/// <param name="Look">The picture setting in force.</param>
/// <param name="Frame">Which frame of its level, from 0, in the order in which they were taken.</param>
/// <param name="R">Median code of red, 0 to 255, interpolated inside the code.</param>
/// <param name="G">Median code of green.</param>
/// <param name="B">Median code of blue.</param>
public sealed record PreviewCodes(string Look, int Frame, double R, double G, double B);
