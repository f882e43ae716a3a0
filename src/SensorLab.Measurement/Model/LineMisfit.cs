using SensorLab.Law;
using SensorLab.Measurement.Levels;

namespace SensorLab.Measurement.Model;

/// <summary>How a channel's variances leave the photon-transfer line.</summary>
/// <param name="Residual">Root mean square of the relative residuals beyond noise.</param>
/// <param name="Wavering">The wavering w of response that would explain them: w²·S² of variance beside the line.</param>
/// <param name="ChiSquare">Squared residuals over their variances.</param>
/// <param name="Degrees">Degrees of freedom of that sum.</param>
/// <param name="ParabolaShare">What a term of S² has of the variance at the brightest point.</param>
/// <param name="Deviations">That term over its standard uncertainty.</param>
internal sealed record LineMisfit(double Residual, double Wavering, double ChiSquare, int Degrees, double ParabolaShare, double Deviations)
{
    /// <summary>Root mean square of the relative residuals beyond noise, or what a parabola adds at the brightest point: what gain may be off.</summary>
    public const double SmallestResidual = 0.01;

    /// <summary>Whether the points leave the line by more than chance lets them, and by as much as matters.</summary>
    public bool IsBeyondChance =>
        (ChiSquareTest.Deviations(ChiSquare, Degrees) > Significance.Deviations && Residual > SmallestResidual)
        || (Deviations > Significance.Parabola && ParabolaShare > SmallestResidual);

    /// <summary>Compares a channel's points with its line.</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="line">Its line, with three degrees of freedom or more.</param>
    /// <param name="blackVarianceDn2">Variance of black between frames in DN².</param>
    public static LineMisfit Of(ChannelModel channel, PhotonTransfer line, double blackVarianceDn2)
    {
        ObservedLevel[] levels = [.. channel.Levels.Where(l => channel.FitLevels.Contains(l.Level))];
        double black = channel.Noise[NoiseParameter.BlackDn];
        PhotonTransferPoint[] points = [.. levels.Select(l => PhotonTransferPoint.Of(l, black, channel.Noise.Response, channel.CodeStepDn, channel.BlackDrift))];
        double[] signals = [.. points.Select(p => p.SignalDn)];
        double[] expected = [.. signals.Select(line.VarianceAt)];
        double[] relative = [.. points.Select((p, i) => p.VarianceDn2 / expected[i])];
        double[] noises = [.. levels.Select((l, i) => ExcessNoise.RelativeVariance(l, line, signals[i], blackVarianceDn2))];
        double residual = Math.Sqrt(Math.Max(0, relative.Average(r => (r - 1) * (r - 1)) - noises.Average()));
        double chiSquare = relative.Zip(noises).Sum(p => (p.First - 1) * (p.First - 1) / p.Second);
        Estimate square = VarianceParabola.Square(signals, [.. points.Select(p => p.VarianceDn2)], [.. noises.Select((n, i) => Math.Sqrt(n) * expected[i])]) ?? default;
        double top = signals.Max();
        return new LineMisfit(
            residual,
            Math.Sqrt(Math.Abs(square.Value)),
            chiSquare,
            line.DegreesOfFreedom,
            Math.Abs(square.Value) * top * top / line.VarianceAt(top),
            square.StandardUncertainty > 0 ? Math.Abs(square.Value) / square.StandardUncertainty : 0);
    }
}
