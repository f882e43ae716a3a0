namespace SensorLab.Reports.Charts;

/// <summary>A criterion on the SNR chart.</summary>
/// <param name="Snr">The criterion: total SNR.</param>
/// <param name="Label">What is printed on the line.</param>
/// <param name="Crossing">Where total SNR falls to it; null where unknown.</param>
/// <param name="Emphasised">Whether it is the criterion that is meant where none is named.</param>
internal sealed record CriterionLine(double Snr, string Label, EvMark? Crossing, bool Emphasised);
