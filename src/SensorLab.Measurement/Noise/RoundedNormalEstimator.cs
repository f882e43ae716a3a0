using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;
using SensorLab.Measurement.Uncertainty;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Noise;

/// <summary>Fits the rounded normal to dark codes: black may lie anywhere between two codes.</summary>
/// <remarks>
/// The likelihood of the code histogram knows black and the total variance; how often frames disagree in a pixel knows
/// the temporal part; the intercept of the lit levels, where noise is above half a step and rounding is noise of 1/12,
/// joins both. The histogram alone leaves the read noise open where only two codes are met.
/// </remarks>
internal sealed class RoundedNormalEstimator
{
    private const double SmallestVariance = 1e-4;
    private const double LargestVariance = 4;
    private const double Convergence = 1e-10;
    private const int MostIterations = 4000;

    /// <summary>Nodes over ± 4 standard deviations of the fixed pattern.</summary>
    private const int PatternNodes = 33;

    private const double PatternReach = 4;

    private readonly CodeHistogram _codes;
    private readonly double _weight;
    private readonly Estimate _observedTemporal;
    private readonly Estimate? _litIntercept;

    private RoundedNormalEstimator(CodeHistogram codes, double weight, Estimate observedTemporal, Estimate? litIntercept)
    {
        _codes = codes;
        _weight = weight;
        _observedTemporal = observedTemporal;
        _litIntercept = litIntercept;
    }

    /// <summary>Fits dark codes.</summary>
    /// <param name="codes">Counts of all dark frames, codes one DN apart.</param>
    /// <param name="frames">Frames that share their pixels: the fixed pattern is seen once, not once a frame.</param>
    /// <param name="observedTemporal">Temporal variance of the rounded values in DN².</param>
    /// <param name="litIntercept">Temporal variance without light from lit levels, rounding taken out, in DN²; null without.</param>
    /// <returns>The fit, or null where it does not determine the parameters.</returns>
    public static RoundedNormal? Fit(CodeHistogram codes, int frames, Estimate observedTemporal, Estimate? litIntercept)
    {
        double[]? best = new RoundedNormalEstimator(codes, 1, observedTemporal, litIntercept).Maximise();
        if (best is null)
        {
            return null;
        }

        double pattern = Math.Clamp(1 - (best[1] / best[2]), 0, 1);
        var weighted = new RoundedNormalEstimator(codes, 1 / (1 + ((frames - 1) * pattern)), observedTemporal, litIntercept);
        return weighted.Maximise() is { } parameters ? weighted.WithUncertainty(parameters) : null;
    }

    private double[]? Maximise()
    {
        double total = _codes.Counts.Sum();
        double mean = _codes.Counts.Select((count, i) => count * (double)(_codes.FirstCodeDn + i)).Sum() / total;
        double start = Math.Clamp(_litIntercept?.Value ?? 0.06, 0.02, 0.3);
        var objective = ObjectiveFunction.Value(p => -LogLikelihood([.. p]));
        Vector<double> initial = Vector<double>.Build.Dense([mean, start, start]);
        Vector<double> steps = Vector<double>.Build.Dense([0.2, 0.05, 0.05]);
        try
        {
            MinimizationResult result = NelderMeadSimplex.Minimum(objective, initial, steps, Convergence, MostIterations);
            return [.. result.MinimizingPoint];
        }
        catch (MaximumIterationsException)
        {
            return null;
        }
    }

    private double LogLikelihood(double[] parameters)
    {
        (double mean, double temporal, double total) = (parameters[0], parameters[1], parameters[2]);
        if (temporal is < SmallestVariance or > LargestVariance || total is < SmallestVariance or > LargestVariance)
        {
            return double.NegativeInfinity;
        }

        double deviation = Math.Sqrt(total);
        double sum = 0;
        for (int i = 0; i < _codes.Counts.Count; i++)
        {
            if (_codes.Counts[i] > 0)
            {
                sum += _weight * _codes.Counts[i] * Math.Log(Math.Max(Share(mean, deviation, _codes.FirstCodeDn + i), 1e-300));
            }
        }

        sum -= Misfit(_observedTemporal, RoundedTemporalVariance(mean, temporal, Math.Max(0, total - temporal)));
        return _litIntercept is { } lit ? sum - Misfit(lit, temporal) : sum;
    }

    private static double Misfit(Estimate observed, double expected) => Math.Pow((observed.Value - expected) / observed.StandardUncertainty, 2) / 2;

    /// <summary>Probability of a code.</summary>
    private static double Share(double mean, double deviation, double code) =>
        Normal.CDF(mean, deviation, code + 0.5) - Normal.CDF(mean, deviation, code - 0.5);

    /// <summary>Temporal variance after rounding, averaged over pixels whose offsets differ.</summary>
    private static double RoundedTemporalVariance(double mean, double temporal, double pattern)
    {
        double deviation = Math.Sqrt(temporal);
        double sum = 0;
        double weights = 0;
        for (int node = 0; node < PatternNodes; node++)
        {
            double z = PatternReach * ((2.0 * node / (PatternNodes - 1)) - 1);
            double weight = Math.Exp(-z * z / 2);
            sum += weight * RoundedVariance(mean + (z * Math.Sqrt(pattern)), deviation);
            weights += weight;
        }

        return sum / weights;
    }

    private static double RoundedVariance(double mean, double deviation)
    {
        double reach = Math.Ceiling(6 * deviation) + 1;
        double first = 0;
        double second = 0;
        for (double code = Math.Round(mean) - reach; code <= Math.Round(mean) + reach; code++)
        {
            double share = Share(mean, deviation, code);
            first += share * (code - mean);
            second += share * (code - mean) * (code - mean);
        }

        return second - (first * first);
    }

    private RoundedNormal? WithUncertainty(double[] parameters)
    {
        Matrix<double> information = Information(parameters);
        if (!(information.Determinant() > 0))
        {
            return null;
        }

        Matrix<double> covariance = information.Inverse();
        double[] uncertainties = [.. covariance.Diagonal().Select(v => Math.Sqrt(Math.Max(v, 0)))];
        return uncertainties.All(double.IsFinite)
            ? new RoundedNormal(new(parameters[0], uncertainties[0]), new(parameters[1], uncertainties[1]), new(parameters[2], uncertainties[2]))
            : null;
    }

    /// <summary>The observed information: minus the second derivatives of the log-likelihood, by differences.</summary>
    private Matrix<double> Information(double[] parameters)
    {
        double[] steps = [1e-3, 0.01 * parameters[1], 0.01 * parameters[2]];
        return Matrix<double>.Build.Dense(3, 3, (i, j) =>
        {
            double At(double a, double b)
            {
                double[] moved = [.. parameters];
                moved[i] += a * steps[i];
                moved[j] += b * steps[j];
                return LogLikelihood(moved);
            }

            return -(At(1, 1) - At(1, -1) - At(-1, 1) + At(-1, -1)) / (4 * steps[i] * steps[j]);
        });
    }
}
