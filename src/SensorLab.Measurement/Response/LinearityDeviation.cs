using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Levels;

namespace SensorLab.Measurement.Response;

/// <summary>A level's relative deviation from the straight line of its series.</summary>
internal sealed class LinearityDeviation
{
    /// <summary>The squared mean of the absolute value of noise, over its variance.</summary>
    private const double SquaredMeanOfNoise = 2 / Math.PI;

    private readonly double[] _sensitivities;
    private readonly double[] _variances;
    private readonly double[] _drifted;

    private LinearityDeviation(double value, double[] sensitivities, double[] variances, double[] drifted)
    {
        Value = value;
        _sensitivities = sensitivities;
        _variances = variances;
        _drifted = drifted;
    }

    /// <summary>Share of the line's signal.</summary>
    public double Value { get; }

    public double StandardUncertainty => Math.Sqrt(CovarianceWith(this));

    /// <summary>The absolute deviation, what noise alone brings to it taken off in quadrature.</summary>
    public double WithoutNoise => Math.Sqrt(Math.Max(0, (Value * Value) - (SquaredMeanOfNoise * CovarianceWith(this))));

    /// <summary>Fits a line of least relative squares and measures every level against it.</summary>
    /// <param name="levels">Levels of one light, three or more.</param>
    /// <param name="blackDn">Black level in DN.</param>
    /// <param name="drift">How black moves from frame to frame.</param>
    public static IEnumerable<LinearityDeviation> Of(ObservedLevel[] levels, double blackDn, BlackDrift drift)
    {
        double[] signals = [.. levels.Select(l => l.Channel.MeanDn - blackDn)];
        if (WeightedLine.Fit([.. levels.Select((l, i) => (l.Exposure, signals[i], 1 / (signals[i] * signals[i])))]) is not { } line)
        {
            yield break;
        }

        double[] drifted = [.. levels.Select(l => drift.OfMean(l.Level.Frames))];
        double[] variances = [.. levels.Select((l, i) => VarianceOfMean(l) + drifted[i])];
        for (int i = 0; i < levels.Length; i++)
        {
            double expected = line.Intercept + (line.Slope * levels[i].Exposure);
            double[] sensitivities = [.. levels.Select((_, j) =>
                ((i == j ? 1 : 0) - line.InterceptSensitivity(j) - (levels[i].Exposure * line.SlopeSensitivity(j))) / expected)];
            yield return new LinearityDeviation((signals[i] - expected) / expected, sensitivities, variances, drifted);
        }
    }

    /// <summary>Covariance with the sum of all deviations, each with the sign that makes it positive.</summary>
    public double VarianceOfSum(IEnumerable<LinearityDeviation> deviations) =>
        deviations.Sum(d => Math.Sign(Value) * Math.Sign(d.Value) * CovarianceWith(d));

    /// <summary>The share of the deviation's variance that black's drift has.</summary>
    public double DriftShare => CovarianceWith(this) is > 0 and double variance ? _sensitivities.Select((s, i) => s * s * _drifted[i]).Sum() / variance : 0;

    /// <summary>A level of one frame has no temporal variance of its own; the mean's uncertainty is then an upper bound.</summary>
    private static double VarianceOfMean(ObservedLevel level) => level.Channel.TemporalVarianceDn2 is { } temporal
        ? temporal / ((double)level.Pixels * level.Level.Frames)
        : level.Channel.MeanUncertaintyDn * level.Channel.MeanUncertaintyDn;

    private double CovarianceWith(LinearityDeviation other) => ReferenceEquals(_variances, other._variances)
        ? _sensitivities.Select((s, i) => s * other._sensitivities[i] * _variances[i]).Sum()
        : 0;
}
