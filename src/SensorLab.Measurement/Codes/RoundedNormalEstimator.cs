using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Codes;

/// <summary>Fits the rounded normal to dark codes: black may lie anywhere between two codes.</summary>
/// <remarks>
/// The code histogram knows black and the total variance; the spread between the frames of a pixel knows how much of it
/// is temporal; the intercept of the lit levels, where noise is above half a step and rounding is noise of 1/12, joins
/// both. All are weighed with the covariance that the model itself gives them (the quasi-score, which for the
/// histogram alone is the likelihood's), iterated by Gauss and Newton. The histogram alone leaves the read noise open
/// where only two codes are met. Where values were cut off at the lowest code, that code stands for all below it
/// (the censored likelihood), in the histogram as in the spread between frames.
/// </remarks>
internal sealed class RoundedNormalEstimator
{
    private const double SmallestVariance = 1e-4;
    private const double LargestVariance = 1e6;

    /// <summary>Change in steps (and steps²) below which an iteration has settled: far below any uncertainty, above what numerical slopes can tell.</summary>
    private const double ConvergedChange = 1e-7;

    private const int MostIterations = 200;

    /// <summary>
    /// Iterations over more codes than <see cref="ManyCodes"/>: a variance that begins at a twentieth of a step is where that many
    /// codes put it after thirty, and what has not settled after half as many again is no noise.
    /// </summary>
    private const int MostIterationsOfManyCodes = 45;

    private const int ManyCodes = 50;

    /// <summary>Expected share from which a code tells something: one in more values than any sensor has.</summary>
    private const double SmallestShare = 1e-12;

    /// <summary>Codes beside those met that are expected to stay empty.</summary>
    private const int EmptyCodes = 1;

    /// <summary>Share of a parameter by which one step may move a variance.</summary>
    private const double LargestStep = 0.3;

    /// <summary>Steps by which the mean may move at once, and the same as a share of the noise where that is more.</summary>
    private const double LargestMeanStep = 0.1;

    /// <summary>Quantiles of what is not cut off that a first look takes mean and noise from.</summary>
    private const double LowerQuantile = 0.3;

    private const double UpperQuantile = 0.8;

    private readonly RoundedMoments _moments;
    private readonly Vector<double> _observed;
    private readonly LitIntercept? _litIntercept;
    private readonly double _histogramPixels;
    private readonly double _pixels;

    private readonly IReadOnlyList<LineSample> _lines;

    /// <summary>What centring in blocks takes from the temporal variance: 1/ν − 1/((n − 1)·pixels).</summary>
    private readonly double _lostDegrees;

    private RoundedNormalEstimator(CodeHistogram codes, int frames, double pixels, Estimate observedTemporal, LitIntercept? litIntercept, bool isCutOff, bool isGathered, IReadOnlyList<LineSample> lines)
    {
        double total = codes.Counts.Sum();
        double[] below = new double[isCutOff ? 0 : EmptyCodes];
        double[] above = new double[isGathered ? 0 : EmptyCodes];
        _moments = new RoundedMoments(codes.FirstCodeDn - below.Length, below.Length + codes.Counts.Count + above.Length, frames);
        _observed = Vector<double>.Build.DenseOfArray([.. below, .. codes.Counts.Select(c => c / total), .. above, observedTemporal.Value]);
        _litIntercept = litIntercept;
        _lines = lines;
        _histogramPixels = total / frames;
        _pixels = pixels;
        _lostDegrees = Math.Max(0, (Math.Pow(observedTemporal.StandardUncertainty / observedTemporal.Value, 2) / 2) - (1 / ((frames - 1) * pixels)));
    }

    /// <summary>Fits dark codes.</summary>
    /// <param name="codes">Counts of all dark frames, codes one apart.</param>
    /// <param name="frames">Frames that share their pixels, two or more: the fixed pattern is seen once, not once a frame.</param>
    /// <param name="pixels">Pixels that the temporal variance rests on; the codes may be those of some of their rows.</param>
    /// <param name="observedTemporal">Temporal variance of the rounded values in DN², its uncertainty that of normal noise.</param>
    /// <param name="litIntercept">Temporal variance without light from lit levels, in steps; null without.</param>
    /// <param name="isCutOff">Whether the lowest code stands for all values below it.</param>
    /// <param name="isGathered">Whether the highest code stands for all values above it.</param>
    /// <param name="lines">What rows and columns share, in steps, null for nothing: few lines make a sample of their own, of black above all.</param>
    /// <returns>The fit, or null where it does not determine the parameters.</returns>
    public static RoundedNormal? Fit(CodeHistogram codes, int frames, double pixels, Estimate observedTemporal, LitIntercept? litIntercept, bool isCutOff = false, bool isGathered = false, IReadOnlyList<LineSample>? lines = null)
    {
        var estimator = new RoundedNormalEstimator(codes, frames, pixels, observedTemporal, litIntercept, isCutOff, isGathered, lines ?? []);
        if (isCutOff)
        {
            (double cutMean, double cutVariance) = FirstLook(codes);
            return estimator.Iterate(cutMean, Math.Max(cutVariance, 0.03)) ?? estimator.LitAlone(cutMean);
        }

        double total = codes.Counts.Sum();
        double mean = codes.Counts.Select((count, i) => count * (double)(codes.FirstCodeDn + i)).Sum() / total;
        double start = Math.Clamp(litIntercept?.VarianceDn2.Value ?? 0.06, 0.03, 0.3);
        return estimator.Iterate(mean, start) ?? estimator.LitAlone(mean);
    }

    /// <summary>Mean and variance from two quantiles above the cut.</summary>
    private static (double Mean, double Variance) FirstLook(CodeHistogram codes)
    {
        double cut = DarkFloor.ShareAtLowest(codes);
        double low = cut + (LowerQuantile * (1 - cut));
        double high = cut + (UpperQuantile * (1 - cut));
        double lowPlace = PlaceOf(codes, low);
        double highPlace = PlaceOf(codes, high);
        double lowNormal = Normal.InvCDF(0, 1, low);
        double deviation = (highPlace - lowPlace) / (Normal.InvCDF(0, 1, high) - lowNormal);
        return (lowPlace - (lowNormal * deviation), deviation * deviation);
    }

    /// <summary>The value below which a share of the values lies, those of a code spread evenly over it.</summary>
    private static double PlaceOf(CodeHistogram codes, double share)
    {
        double wanted = share * codes.Counts.Sum();
        double sum = 0;
        int i = 0;
        while (i < codes.Counts.Count - 1 && sum + codes.Counts[i] < wanted)
        {
            sum += codes.Counts[i++];
        }

        return codes.FirstCodeDn + i - 0.5 + ((wanted - sum) / Math.Max(1, codes.Counts[i]));
    }

    private RoundedNormal? Iterate(double mean, double variance)
    {
        Vector<double> at = Vector<double>.Build.DenseOfArray([mean, variance, variance]);
        int most = _observed.Count > ManyCodes ? MostIterationsOfManyCodes : MostIterations;
        for (int i = 0; i < most; i++)
        {
            (Matrix<double> information, Vector<double> score) = At(at);
            if (!information.Enumerate().All(double.IsFinite))
            {
                return null;
            }

            Matrix<double> covariance = information.PseudoInverse();
            Vector<double> step = covariance * score;
            if (!step.All(double.IsFinite))
            {
                return null;
            }

            double scale = Math.Min(1, Math.Min(
                LargestMeanStep * Math.Max(1, 3 * Math.Sqrt(at[2])) / Math.Abs(step[0]),
                Math.Min(LargestStep * at[1] / Math.Abs(step[1]), LargestStep * at[2] / Math.Abs(step[2]))));
            at += scale * step;
            if (at[1] is < SmallestVariance or > LargestVariance || at[2] is < SmallestVariance or > LargestVariance)
            {
                return null;
            }

            if (step.AbsoluteMaximum() < ConvergedChange * Math.Max(1, at[2]))
            {
                return ToResult(at, covariance);
            }
        }

        return null;
    }

    /// <summary>Information and score of mean, temporal and total variance.</summary>
    private (Matrix<double> Information, Vector<double> Score) At(Vector<double> at)
    {
        Vector<double> expected = _moments.Expected(at[0], at[1], at[2]);
        Matrix<double> slopes = Matrix<double>.Build.DenseOfColumnVectors(Enumerable.Range(0, 3).Select(i => Slope(at, i)));

        // The shares add up to one: the largest follows from the others.
        int codes = expected.Count - 1;
        int largest = expected.SubVector(0, codes).MaximumIndex();
        int[] kept = [.. Enumerable.Range(0, expected.Count).Where(i => i != largest && (i == codes || expected[i] > SmallestShare))];
        Matrix<double> pixel = _moments.Covariance(at[0], at[1], at[2]);
        Matrix<double> covariance = Matrix<double>.Build.Dense(kept.Length, kept.Length, (i, j) =>
            pixel[kept[i], kept[j]] / (kept[i] == codes || kept[j] == codes ? _pixels : _histogramPixels));
        foreach (LineSample line in _lines.Where(l => l.VarianceDn2 > 0))
        {
            Matrix<double> between = _moments.CovarianceOfLines(at[0], at[1], at[2], line.VarianceDn2);
            covariance += Matrix<double>.Build.Dense(kept.Length, kept.Length, (i, j) => between[kept[i], kept[j]] / line.Lines);
        }

        covariance[kept.Length - 1, kept.Length - 1] += 2 * expected[codes] * expected[codes] * _lostDegrees;
        Matrix<double> slope = Matrix<double>.Build.Dense(kept.Length, 3, (i, j) => slopes[kept[i], j]);
        Vector<double> misfit = Vector<double>.Build.Dense(kept.Length, i => _observed[kept[i]] - expected[kept[i]]);

        // Scaled to unit diagonal: a code that is hardly ever met would spoil the inverse.
        Vector<double> deviations = covariance.Diagonal().Map(v => Math.Sqrt(Math.Max(v, 1e-30)));
        Matrix<double> correlation = Matrix<double>.Build.Dense(kept.Length, kept.Length, (i, j) => covariance[i, j] / (deviations[i] * deviations[j]));
        Matrix<double> scaledSlope = Matrix<double>.Build.Dense(kept.Length, 3, (i, j) => slope[i, j] / deviations[i]);
        Matrix<double> weighted = correlation.Solve(scaledSlope);
        Matrix<double> information = scaledSlope.TransposeThisAndMultiply(weighted);
        Vector<double> score = weighted.TransposeThisAndMultiply(misfit.PointwiseDivide(deviations));
        if (_litIntercept is { } lit)
        {
            // Both move together: a black higher by 1 DN lets the lit line end higher by its slope.
            Vector<double> direction = Vector<double>.Build.Dense([-lit.GainDnPerElectron, 1, 0]);
            double misfitOfLit = lit.VarianceDn2.Value + (lit.GainDnPerElectron * (at[0] - lit.BlackDn)) - at[1];
            information += direction.OuterProduct(direction) / lit.VarianceDn2.Variance;
            score += direction * (misfitOfLit / lit.VarianceDn2.Variance);
        }

        return (information, score);
    }

    /// <summary>
    /// Where black lies half-way and only two codes are met, the dark frames leave the scale of the noise open; the lit
    /// levels' intercept is then all there is, and it may come out at or below zero. Where one code alone is met, black is
    /// anywhere in it.
    /// </summary>
    private RoundedNormal? LitAlone(double mean)
    {
        double spread = _observed[^1];
        return _litIntercept is { } lit
            ? new RoundedNormal(new(mean, Math.Sqrt(spread > 0 ? spread / _pixels : RoundingNoise.VarianceDn2(1))), lit.VarianceDn2, lit.VarianceDn2, new(0, lit.VarianceDn2.StandardUncertainty), default)
            : null;
    }

    private Vector<double> Slope(Vector<double> at, int parameter)
    {
        double step = parameter == 0 ? 1e-4 : 1e-3 * at[parameter];
        Vector<double> up = at.Clone();
        Vector<double> down = at.Clone();
        up[parameter] += step;
        down[parameter] -= step;
        return (_moments.Expected(up[0], up[1], up[2]) - _moments.Expected(down[0], down[1], down[2])) / (2 * step);
    }

    private static RoundedNormal? ToResult(Vector<double> at, Matrix<double> covariance)
    {
        Estimate Of(int i) => new(at[i], Math.Sqrt(covariance[i, i]));
        double pattern = covariance[1, 1] + covariance[2, 2] - (2 * covariance[1, 2]);
        return covariance.Diagonal().All(v => v > 0 && double.IsFinite(v)) && pattern > 0
            ? new RoundedNormal(
                Of(0),
                Of(1),
                Of(2),
                new Estimate(at[2] - at[1], Math.Sqrt(pattern)),
                new RoundedCovariance(covariance[0, 1], covariance[0, 2] - covariance[0, 1], covariance[1, 2] - covariance[1, 1]))
            : null;
    }
}
