namespace SensorLab.Tests.Plans;

/// <summary>The uncertainty that a profile states over the one that its plan predicted.</summary>
/// <param name="Figure">The figure as the study's table calls it.</param>
/// <param name="Iso">The ISO.</param>
/// <param name="Ratio">Stated over predicted.</param>
internal sealed record PlannedRatio(string Figure, int Iso, double Ratio);
