using SensorLab.Profiles;

namespace SensorLab.Measurement.Codes;

/// <summary>Code histograms put together, and brought to steps of one where a maker multiplied the codes.</summary>
internal static class CodeCounts
{
    /// <summary>
    /// Share of values above which the tail of a wide distribution counts as one code: what sticks out there is no read
    /// noise. The spread of what is gathered lacks less than 2·10⁻⁴ of a normal distribution's variance.
    /// </summary>
    private const double TailShare = 0.9999;

    /// <summary>Codes up to which every one counts for itself.</summary>
    private const int FewCodes = 12;

    /// <summary>The sum of histograms.</summary>
    /// <param name="histograms">One histogram or more.</param>
    public static CodeHistogram Pooled(IReadOnlyList<CodeHistogram> histograms)
    {
        int first = histograms.Min(h => h.FirstCodeDn);
        int last = histograms.Max(h => h.FirstCodeDn + h.Counts.Count - 1);
        long[] counts = new long[last - first + 1];
        foreach (CodeHistogram histogram in histograms)
        {
            for (int i = 0; i < histogram.Counts.Count; i++)
            {
                counts[histogram.FirstCodeDn - first + i] += histogram.Counts[i];
            }
        }

        return new CodeHistogram(first, counts);
    }

    /// <summary>The same counts by number of steps from the lowest code, which becomes code 0.</summary>
    /// <param name="codes">Counts by code; the lowest was met.</param>
    /// <param name="stepDn">Mean spacing of codes in DN.</param>
    public static CodeHistogram InSteps(CodeHistogram codes, double stepDn)
    {
        long[] counts = new long[(int)Math.Round((codes.Counts.Count - 1) / stepDn) + 1];
        for (int i = 0; i < codes.Counts.Count; i++)
        {
            counts[(int)Math.Min(Math.Round(i / stepDn), counts.Length - 1)] += codes.Counts[i];
        }

        return new CodeHistogram(0, counts);
    }

    /// <summary>The same counts with the upper tail of a wide distribution gathered in one code.</summary>
    /// <param name="codes">Counts by code.</param>
    public static CodeHistogram WithGatheredTail(CodeHistogram codes)
    {
        double most = TailShare * codes.Counts.Sum();
        int last = 0;
        for (double sum = codes.Counts[0]; sum < most; sum += codes.Counts[last])
        {
            last++;
        }

        return last < FewCodes ? codes : new CodeHistogram(codes.FirstCodeDn, [.. codes.Counts.Take(last), codes.Counts.Skip(last).Sum()]);
    }
}
