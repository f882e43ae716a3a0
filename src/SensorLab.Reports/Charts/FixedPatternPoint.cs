namespace SensorLab.Reports.Charts;

/// <summary>The noise of one channel at one level: fixed pattern by pixel, row and column, and temporal.</summary>
/// <param name="Channel">R, G1, G2, B or Y.</param>
/// <param name="Ev">EV relative to middle grey.</param>
/// <param name="SignalDn">Mean signal above black.</param>
/// <param name="TemporalDn">Temporal noise, a standard deviation; null where not measured.</param>
/// <param name="Pixel">Fixed pattern that differs from pixel to pixel.</param>
/// <param name="Row">Fixed pattern that pixels of a row share.</param>
/// <param name="Column">Fixed pattern that pixels of a column share.</param>
internal sealed record FixedPatternPoint(string Channel, double Ev, double SignalDn, double? TemporalDn, PatternPart Pixel, PatternPart Row, PatternPart Column);
