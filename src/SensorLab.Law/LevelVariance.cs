using SensorLab.Profiles;

namespace SensorLab.Law;

/// <summary>How uncertain a level's variances are by themselves.</summary>
public static class LevelVariance
{
    /// <summary>The squared standard uncertainty of a variance, its parts being independent estimates.</summary>
    /// <param name="parts">The parts of the variance.</param>
    /// <returns>In DN⁴.</returns>
    public static double SquaredUncertaintyDn4(VarianceParts parts) =>
        (parts.PixelUncertaintyDn2 * parts.PixelUncertaintyDn2) +
        (parts.RowUncertaintyDn2 * parts.RowUncertaintyDn2) +
        (parts.ColumnUncertaintyDn2 * parts.ColumnUncertaintyDn2);

    /// <summary>The standard uncertainty of a level's temporal variance.</summary>
    /// <param name="level">The level.</param>
    /// <param name="channel">One of its channels.</param>
    /// <returns>In DN²: of the published parts, or of normal noise with (n − 1)(N − 1) degrees of freedom; null without a variance.</returns>
    /// <remarks>The variance of a variance of normal noise is 2σ⁴ over its degrees of freedom.</remarks>
    public static double? TemporalUncertaintyDn2(LevelRecord level, LevelChannel channel)
    {
        if (channel.TemporalVarianceDn2 is not { } variance)
        {
            return null;
        }

        if (channel.TemporalParts is { } parts)
        {
            return Math.Sqrt(SquaredUncertaintyDn4(parts));
        }

        double freedom = (level.Frames - 1.0) * ((channel.Pixels ?? level.PixelsPerChannel) - 1.0);
        return freedom > 0 ? Math.Abs(variance) * Math.Sqrt(2 / freedom) : null;
    }
}
