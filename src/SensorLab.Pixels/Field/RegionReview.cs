using SensorLab.Frames;

namespace SensorLab.Pixels.Field;

/// <summary>Whether a region that one frame suggested is even at all levels: an edge in view, or a leak, may show at some of them only.</summary>
public static class RegionReview
{
    /// <summary>Signal between these shares of the white level: a drift of black does not shape it, clipping does not flatten it.</summary>
    private const double LowestShare = 0.01;

    private const double HighestShare = 0.8;

    /// <summary>Cells noisier than this say nothing about an unevenness of a tenth.</summary>
    private const double LargestNoise = 0.02;

    /// <summary>How far beyond the allowed ratio a level must be: the region was chosen to reach it in one frame.</summary>
    private const double Slack = 1.02;

    /// <summary>A better place smaller than this share of the region is none: bands of pulsed light run over the whole frame.</summary>
    private const double SmallestShare = 0.25;

    /// <summary>Looks for a better region.</summary>
    /// <param name="levels">Statistics of all levels of a set, of one geometry.</param>
    /// <param name="region">The region that was measured, in photosites from the active area's top left.</param>
    /// <returns>A region that is even at every level; null where the one measured is, or where there is no better one.</returns>
    public static PixelRectangle? BetterThan(PixelRectangle region, IReadOnlyList<LevelStatistics> levels)
    {
        LitField[] fields = [.. levels.GroupBy(l => l.Level.Key.Iso).SelectMany(FieldsOf)];
        if (!fields.Any(f => RegionFinder.RatioIn(f, region) > Slack * RegionFinder.AllowedRatio(f)))
        {
            return null;
        }

        PixelRectangle active = levels[0].Level.Frames[0].Raw.Layout.ActiveArea;
        return RegionFinder.FindCommon(fields, active) is { } better && better.Area >= SmallestShare * region.Area ? better : null;
    }

    /// <summary>Whether a glow reaches into a region.</summary>
    /// <param name="glow">The glow.</param>
    /// <param name="map">A map of the same cells.</param>
    /// <param name="region">The region in photosites from the active area's top left; cells count whose centre it holds.</param>
    internal static bool Reaches(GlowMap glow, FieldMap map, PixelRectangle region) =>
        double.IsPositiveInfinity(RegionFinder.RatioIn(new LitField(map, double.NegativeInfinity) { LeftOut = glow.IsIn }, region));

    private static IEnumerable<LitField> FieldsOf(IEnumerable<LevelStatistics> iso)
    {
        LevelStatistics[] levels = [.. iso];
        LevelStatistics[] darks = [.. levels.Where(l => l.Level.Key.Role == FrameRole.Dark)];
        bool[]? glowing = GlowMap.Of(darks)?.IsIn;
        double black = darks.Length == 0 ? 0 : darks.Average(d => d.Field.MeanDn);
        foreach (LevelStatistics level in levels.Where(l => l.Level.Key.Role is FrameRole.Metered or FrameRole.Bracket))
        {
            RawFrame raw = level.Level.Frames[0].Raw;
            double white = (raw.Declared.WhiteDn ?? (1 << raw.Layout.BitDepth) - 1) - black;
            var field = new LitField(level.Field, black, darks.MinBy(d => TimesApart(d, level))?.Field) { LeftOut = glowing };
            double share = (level.Field.MeanDn - black) / white;
            if (share is > LowestShare and < HighestShare && field.RelativeNoise < LargestNoise)
            {
                yield return field;
            }
        }
    }

    private static double TimesApart(LevelStatistics dark, LevelStatistics level) =>
        Math.Abs(Math.Log(dark.Level.Key.ExposureSeconds / level.Level.Key.ExposureSeconds));
}
