namespace SensorLab.Confirms;

/// <summary>What the codes of everyday frames tell: how far apart they lie, and where they pile up.</summary>
internal static class EverydayCodes
{
    /// <summary>Codes beside the highest that a pile is held against.</summary>
    private const int Beside = 8;

    /// <summary>Values of a code from which its neighbours are not empty by chance: once in 10⁸.</summary>
    private const long FewestValues = 20;

    /// <summary>Codes in a row that one gap may be long: a push by less than five.</summary>
    private const int LongestGap = 4;

    /// <summary>Codes looked at that tell a spacing to a hundredth.</summary>
    private const int FewestCodes = 400;

    private const long FewestPiled = 50;
    private const double PileFactor = 4;

    /// <summary>Mean spacing of codes in DN, where they are met often.</summary>
    /// <param name="counts">Values a code, from 0 up.</param>
    /// <returns>1 or more; null where too few codes are met often.</returns>
    /// <remarks>A gap is empty codes between two that are met often: at the foot of a tone's codes there is none on its other side.</remarks>
    public static double? StepDn(ReadOnlySpan<long> counts)
    {
        (int met, int gaps, int last) = (0, 0, int.MinValue / 2);
        for (int code = 0; code < counts.Length; code++)
        {
            if (counts[code] < FewestValues)
            {
                continue;
            }

            int between = code - last - 1;
            met++;
            gaps += between <= LongestGap && counts.Slice(code - between, between).IndexOfAnyExcept(0L) < 0 ? between : 0;
            last = code;
        }

        return met + gaps >= FewestCodes ? (double)(met + gaps) / met : null;
    }

    /// <summary>The highest code, where values pile up at it.</summary>
    /// <param name="counts">Values a code, from 0 up.</param>
    public static int? PileCodeDn(ReadOnlySpan<long> counts)
    {
        int highest = counts.LastIndexOfAnyExcept(0);
        if (highest < Beside || counts[highest] < FewestPiled)
        {
            return null;
        }

        long beside = 0;
        foreach (long count in counts.Slice(highest - Beside, Beside))
        {
            beside = Math.Max(beside, count);
        }

        return counts[highest] >= PileFactor * beside ? highest : null;
    }
}
