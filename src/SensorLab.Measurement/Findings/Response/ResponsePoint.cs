namespace SensorLab.Measurement.Findings.Response;

/// <summary>A level of a response fit.</summary>
/// <param name="Level">The level.</param>
/// <param name="LogExposure">ln of signal over nominal exposure, the sensor's bend taken out, up to a constant.</param>
/// <param name="Uncertainty">Its standard uncertainty by temporal noise.</param>
/// <param name="Order">Place in the order of capture, from 0 to 1; null where frames have no time.</param>
internal sealed record ResponsePoint(EvidenceLevel Level, double LogExposure, double Uncertainty, double? Order);
