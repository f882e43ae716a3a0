using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Response;

/// <summary>How far a channel's response is from a straight line, in percent of the signal.</summary>
/// <param name="MeanPercent">EMVA 1288 R4's linearity error: the mean of the absolute deviations.</param>
/// <param name="LargestPercent">The largest absolute deviation.</param>
/// <remarks>Absolute values of noisy deviations are never zero: the intervals reach down to it where noise alone explains them.</remarks>
public sealed record LinearityError(Figure MeanPercent, Figure LargestPercent)
{
    /// <summary>Takes both from the deviations of all levels.</summary>
    /// <param name="deviations">One deviation or more.</param>
    /// <param name="driftDegrees">Degrees of freedom of what black's drift adds to their variance.</param>
    internal static LinearityError Of(IReadOnlyList<LinearityDeviation> deviations, double driftDegrees)
    {
        // Drift's part is widened alone: with one or two degrees of freedom its own share is too uncertain to weigh them by.
        double share = deviations.Average(d => d.DriftShare);
        double student = StudentTail.Factor95(driftDegrees) / Figure.NormalFactor95;
        double widening = Math.Sqrt(1 + (share * ((student * student) - 1)));
        // The mean follows the deviations with their signs: their covariance, levels of one line moving together.
        double variance = Math.Max(0, deviations.Sum(d => d.VarianceOfSum(deviations))) / ((double)deviations.Count * deviations.Count);
        double mean = deviations.Average(d => Math.Abs(d.Value));
        double meanLower = deviations.Average(d => d.WithoutNoise) - (Figure.NormalFactor95 * widening * Math.Sqrt(variance));
        LinearityDeviation largest = deviations.MaxBy(d => Math.Abs(d.Value))!;
        double largestLower = Math.Abs(largest.Value) - (Propagation.CoverageOfLargest(deviations.Count) * widening * largest.StandardUncertainty);
        return new LinearityError(
            ToFigure(mean, Math.Sqrt(variance), meanLower, widening),
            ToFigure(Math.Abs(largest.Value), largest.StandardUncertainty, largestLower, widening));
    }

    private static Figure ToFigure(double value, double uncertainty, double lower, double widening) => Figure.Estimate(
        100 * value,
        100 * uncertainty,
        100 * Math.Clamp(lower, 0, value),
        100 * (value + (Figure.NormalFactor95 * widening * uncertainty)));
}
