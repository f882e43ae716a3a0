namespace SensorLab.Planning.Plans;

/// <summary>A level as it will enter the fits: its signal, its frames, and what is known of its variances.</summary>
/// <param name="SignalElectron">Signal in e⁻; 0 for a dark level.</param>
/// <param name="Frames">Frames, two or more.</param>
/// <param name="TemporalElectron2">Temporal variance of a pixel in e⁻².</param>
/// <param name="TemporalUncertaintySquare">Variance of the estimate of that, in e⁻⁴.</param>
/// <param name="PatternUncertaintySquare">Variance of the estimate of the fixed pattern's variance, in e⁻⁴.</param>
internal readonly record struct PlannedVariance(
    double SignalElectron, int Frames, double TemporalElectron2, double TemporalUncertaintySquare, double PatternUncertaintySquare);
