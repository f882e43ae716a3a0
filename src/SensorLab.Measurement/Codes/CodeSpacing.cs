using SensorLab.Pixels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Codes;

/// <summary>How far apart the codes of a channel lie: more than 1 DN where a maker multiplied or rounded them.</summary>
/// <param name="Codes">Whole DN from the first code looked at to the last.</param>
/// <param name="Steps">Steps that the codes met make over that distance.</param>
/// <remarks>
/// Only the middle nine tenths of a distribution count. There a normal distribution of 60 values a code on the mean has
/// 22 at the least, and leaves a code empty once in 6·10⁹ codes. Frames of different light make other distributions, whose
/// valleys have empty codes by chance: one that is thinner anywhere does not tell. Where most codes are empty fewer values
/// serve: of four a code chance leaves a quarter of them empty at the most.
/// </remarks>
internal readonly record struct CodeSpacing(int Codes, int Steps)
{
    private const double TailShare = 0.05;
    private const double FewestValuesACode = 60;

    /// <summary>Values a code that serve where most codes are empty, and the mean step from which they are.</summary>
    private const double SparsestValuesACode = 4;
    private const double SmallestSparseStepDn = 3;

    /// <summary>The fewest that any stretch of codes is to have on the mean: below those 22 by what chance leaves, and a code is empty once in 10⁷.</summary>
    private const double ThinnestValuesACode = 16;

    /// <summary>Codes, and mean steps, of such a stretch at least.</summary>
    private const int StretchCodes = 32;
    private const double StretchSteps = 8;

    private const int FewestCodes = 3;

    /// <summary>Noise in steps below which a pixel hardly ever meets a second code.</summary>
    private const double SmallestNoiseSteps = 0.1;

    /// <summary>Mean steps that one gap may be long: a fraction multiplied makes steps of two neighbouring lengths.</summary>
    private const double LongestRun = 2;

    /// <summary>Mean distance of neighbouring codes in DN.</summary>
    public double StepDn => (double)Codes / Steps;

    /// <summary>Codes that were never met.</summary>
    public int Gaps => Codes - Steps;

    /// <summary>Whether codes lie farther apart than others by a ratio, wherever the first and the last code of either fall between two steps.</summary>
    /// <param name="other">The others.</param>
    /// <param name="ratio">The ratio, above 1.</param>
    public bool IsWiderThan(CodeSpacing other, double ratio) => (Codes - 1.0) / Steps > ratio * (other.Codes + 1) / other.Steps;

    public static CodeSpacing operator +(CodeSpacing a, CodeSpacing b) => new(a.Codes + b.Codes, a.Steps + b.Steps);

    /// <summary>The spacing of a channel's codes at a level; null where they do not tell, or noise is none and each frame has a code of its own.</summary>
    /// <param name="channel">Statistics of the channel at the level.</param>
    public static CodeSpacing? Of(ChannelStatistics channel) => Of(channel.Codes) is { } spacing
        && (channel.Temporal is not { } temporal || temporal.Parts.PixelDn2 > SmallestNoiseSteps * SmallestNoiseSteps * spacing.StepDn * spacing.StepDn)
            ? spacing
            : null;

    /// <summary>The spacing of a histogram without clipped values; null where it holds too few codes or too few values.</summary>
    public static CodeSpacing? Of(CodeHistogram histogram)
    {
        long total = histogram.Counts.Sum();
        int first = Quantile(histogram, TailShare * total);
        int last = Quantile(histogram, (1 - TailShare) * total);
        int codes = last - first;
        double values = total * (1 - (2 * TailShare));
        if (codes < FewestCodes || values < SparsestValuesACode * (codes + 1))
        {
            return null;
        }

        int met = 0;
        int run = 0;
        int longest = 0;
        foreach (long count in histogram.Counts.Skip(first).Take(codes + 1))
        {
            met += count > 0 ? 1 : 0;
            run = count > 0 ? 0 : run + 1;
            longest = Math.Max(longest, run);
        }

        // One wide gap lies between frames of different light, not between codes.
        var spacing = new CodeSpacing(codes, Math.Max(1, met - 1));
        bool isTold = values < FewestValuesACode * (codes + 1)
            ? spacing.StepDn > SmallestSparseStepDn && values > FewestValuesACode * met
            : !IsThin(histogram, first, last, spacing.StepDn);
        return isTold && met >= FewestCodes && longest <= LongestRun * spacing.StepDn ? spacing : null;
    }

    private static bool IsThin(CodeHistogram histogram, int first, int last, double stepDn)
    {
        int stretch = (int)Math.Max(StretchCodes, StretchSteps * stepDn);
        double sum = 0;
        for (int i = first; i <= last; i++)
        {
            sum += histogram.Counts[i] - (i - first >= stretch ? histogram.Counts[i - stretch] : 0);
            if (i - first >= stretch - 1 && sum < ThinnestValuesACode * stretch)
            {
                return true;
            }
        }

        return false;
    }

    private static int Quantile(CodeHistogram histogram, double values)
    {
        double sum = 0;
        for (int i = 0; i < histogram.Counts.Count; i++)
        {
            sum += histogram.Counts[i];
            if (sum > values)
            {
                return i;
            }
        }

        return histogram.Counts.Count - 1;
    }
}
