using SensorLab.Profiles;

namespace SensorLab.Pixels.Codes;

/// <summary>Finds the code at which a channel's values pile up.</summary>
public static class ClipCodeFinder
{
    /// <summary>Share of a level's pixels at the highest code below which hot pixels could be it.</summary>
    private const double SmallestShare = 0.01;

    /// <summary>How many times more pixels stand at the clip than one code below: a distribution's own edge never does that.</summary>
    private const double PileUpRatio = 5;

    /// <summary>The clip code of a channel.</summary>
    /// <param name="litLevels">Code histograms of the channel's lit levels.</param>
    /// <returns>The highest code of all levels in DN where pixels pile up at it, else null.</returns>
    public static int? Find(IEnumerable<CodeHistogram> litLevels)
    {
        CodeHistogram[] levels = [.. litLevels.Where(l => l.Counts.Count > 0)];
        if (levels.Length == 0)
        {
            return null;
        }

        int highest = levels.Max(HighestCode);
        return levels.Any(l => HighestCode(l) == highest && PilesUp(l)) ? highest : null;
    }

    /// <summary>The share of pixels at a code or above it.</summary>
    /// <param name="histogram">Counts of codes.</param>
    /// <param name="codeDn">The code in DN.</param>
    public static double ShareFrom(CodeHistogram histogram, int codeDn)
    {
        long total = histogram.Counts.Sum();
        long above = histogram.Counts.Skip(Math.Max(0, codeDn - histogram.FirstCodeDn)).Sum();
        return total == 0 ? 0 : (double)above / total;
    }

    private static int HighestCode(CodeHistogram histogram) => histogram.FirstCodeDn + histogram.Counts.Count - 1;

    private static bool PilesUp(CodeHistogram histogram)
    {
        long last = histogram.Counts[^1];
        long below = histogram.Counts.Count > 1 ? histogram.Counts[^2] : 0;
        return last >= SmallestShare * histogram.Counts.Sum() && last >= PileUpRatio * below;
    }
}
