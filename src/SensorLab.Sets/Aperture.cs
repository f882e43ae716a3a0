namespace SensorLab.Sets;

/// <summary>Apertures as frames tell them.</summary>
internal static class Aperture
{
    /// <summary>F-numbers this close are one setting (relative): a third of a stop is 12 %, rounding to two digits 1 %.</summary>
    private const double Tolerance = 0.02;

    /// <summary>The f-number; null where it is unknown or the lens has no contacts (0).</summary>
    public static double? KnownFNumberOf(SetFrame frame) =>
        frame.Raw.Metadata.ApertureFNumber is { } fNumber && fNumber > 0 ? fNumber : null;

    /// <summary>The f-number that all frames share which know theirs; null where none does, or they differ.</summary>
    public static double? CommonFNumberOf(IEnumerable<SetFrame> frames)
    {
        double[] known = [.. frames.Select(KnownFNumberOf).OfType<double>().Order()];
        return known.Length > 0 && IsSame(known[0], known[^1]) ? known[0] : null;
    }

    /// <summary>Whether two f-numbers are one setting; 0 (no contacts) is a setting of its own.</summary>
    public static bool IsSame(double a, double b) => Math.Abs(a - b) <= Tolerance * Math.Min(a, b);
}
