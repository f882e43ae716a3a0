using MathNet.Numerics.Distributions;
using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Codes;

/// <summary>Finds the code at which dark values are cut off, wherever it lies.</summary>
/// <remarks>
/// A normal distribution's share below an edge between codes is Φ((edge − black)/σ), and a cut at the lowest code leaves
/// those shares as they are: the lowest code stands for all below it. The two lowest shares therefore say how many values
/// ought to lie below the lowest code. Where many ought to and none does, they were cut off. What sticks out above (hot
/// pixels, dark signal) has no part in it, and a wider or narrower flank only one of the lowest code's own making.
/// </remarks>
internal static class DarkFloor
{
    /// <summary>Share of dark values at the lowest code below which read noise is off by under half a percent.</summary>
    private const double SmallestShare = 0.005;

    /// <summary>Share of values above the second code from which it is the distribution's own flank, and no tail of hot pixels, that the slope is taken from.</summary>
    private const double SmallestAbove = 0.025;

    /// <summary>Values missing below for each one above the second code from which it does not matter whose tail that is: hot pixels above make seem as many missing below as they are, and no more.</summary>
    private const double OutnumberingTail = 10;

    /// <summary>Values that ought to lie below the lowest code: that none does happens by chance once in e²¹ = 10⁹ sets.</summary>
    private const double FewestMissing = 21;

    /// <summary>The lowest code in DN where dark values are cut off at it; null where they are not.</summary>
    /// <param name="codes">Codes of dark frames.</param>
    /// <param name="frames">Frames that show the same pixels: with a strong pattern they are no more witnesses than one.</param>
    public static int? Of(CodeHistogram codes, int frames) => codes.Counts.Count > 0 && IsCutOff(codes, frames) ? codes.FirstCodeDn : null;

    /// <summary>Share of the values at the lowest code.</summary>
    /// <param name="codes">Codes of dark frames.</param>
    public static double ShareAtLowest(CodeHistogram codes) => (double)codes.Counts[0] / codes.Counts.Sum();

    private static bool IsCutOff(CodeHistogram codes, int frames)
    {
        double lowest = ShareAtLowest(codes);
        return lowest > SmallestShare && (codes.FirstCodeDn == 0 || Missing(codes, lowest, frames) > FewestMissing);
    }

    /// <summary>Values of independent pixels that a normal distribution of this flank has below the lowest code.</summary>
    private static double Missing(CodeHistogram codes, double lowest, int frames)
    {
        double pixels = codes.Counts.Sum() / (double)frames;

        // A code that a maker's multiplication skips is none: the next one met counts.
        double second = lowest + (codes.Counts.Skip(1).FirstOrDefault(c => c > 0) * lowest / codes.Counts[0]);
        double place = Normal.InvCDF(0, 1, lowest);
        double step = Normal.InvCDF(0, 1, Math.Min(1, second)) - place;
        if (!double.IsFinite(step))
        {
            return 0;
        }

        double density = Normal.PDF(0, 1, place);
        double densityOfSecond = Normal.PDF(0, 1, place + step);
        double variance = (Variance(lowest, lowest) / (density * density))
            + (Variance(second, second) / (densityOfSecond * densityOfSecond))
            - (2 * Variance(lowest, second) / (density * densityOfSecond));
        double missing = Normal.CDF(0, 1, place - step - (Significance.Flank * Math.Sqrt(variance / pixels)));
        return 1 - second < SmallestAbove && missing < OutnumberingTail * (1 - second) ? 0 : pixels * missing;
    }

    /// <summary>Covariance of two shares below edges, of one value.</summary>
    private static double Variance(double lower, double upper) => lower * (1 - upper);
}
