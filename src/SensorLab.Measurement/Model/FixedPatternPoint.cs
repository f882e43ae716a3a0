namespace SensorLab.Measurement.Model;

/// <summary>The fixed-pattern variance of one level.</summary>
/// <param name="SignalDn">Signal above black in DN.</param>
/// <param name="VarianceDn2">Fixed-pattern variance in DN².</param>
/// <param name="StandardUncertaintyDn2">Standard uncertainty of the variance in DN².</param>
public readonly record struct FixedPatternPoint(double SignalDn, double VarianceDn2, double StandardUncertaintyDn2);
