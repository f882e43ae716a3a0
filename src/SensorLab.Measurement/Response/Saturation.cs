using SensorLab.Law;

namespace SensorLab.Measurement.Response;

/// <summary>Where a channel saturates, black included.</summary>
/// <param name="MeanDn">Mean on the plateau in DN; null where the bracket does not reach it.</param>
/// <param name="HighestMeanDn">Mean of the brightest level in DN: saturation is no lower.</param>
/// <param name="AtConverter">Whether the clip is a code where pixels pile up.</param>
public sealed record Saturation(Estimate? MeanDn, double HighestMeanDn, bool AtConverter);
