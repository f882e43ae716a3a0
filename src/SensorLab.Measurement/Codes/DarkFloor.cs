using SensorLab.Profiles;

namespace SensorLab.Measurement.Codes;

/// <summary>Finds the code at which dark values are cut off.</summary>
internal static class DarkFloor
{
    /// <summary>Share of dark values at the lowest code below which read noise is off by under half a percent.</summary>
    private const double SmallestShare = 0.005;

    /// <summary>How many times more values stand at the lowest code than at its mirror above the middle: a distribution's own edge has as many.</summary>
    private const double PileUpRatio = 3;

    /// <summary>The lowest code in DN where dark values pile up at it; null where they do not.</summary>
    /// <param name="codes">Codes of dark frames.</param>
    public static int? Of(CodeHistogram codes) => codes.Counts.Count > 0 && PilesUp(codes) ? codes.FirstCodeDn : null;

    /// <summary>Share of the values at the lowest code.</summary>
    /// <param name="codes">Codes of dark frames.</param>
    public static double ShareAtLowest(CodeHistogram codes) => (double)codes.Counts[0] / codes.Counts.Sum();

    private static bool PilesUp(CodeHistogram codes)
    {
        double share = ShareAtLowest(codes);
        if (codes.FirstCodeDn == 0)
        {
            return share > SmallestShare;
        }

        long total = codes.Counts.Sum();
        long below = 0;
        int middle = 0;
        while (below + codes.Counts[middle] <= total / 2)
        {
            below += codes.Counts[middle++];
        }

        double mirror = 2 * middle < codes.Counts.Count ? codes.Counts[2 * middle] : 0;
        return share > SmallestShare && middle > 0 && codes.Counts[0] > PileUpRatio * Math.Max(mirror, codes.Counts.Count > 1 ? codes.Counts[1] / PileUpRatio : 0);
    }
}
