using System.Globalization;
using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab;

/// <summary>What the levels of a document can say against themselves, where those of frames cannot: a fit of them would mean nothing.</summary>
internal static class LevelContradictions
{
    // What a document rounded to five digits may be off by, as a share of what is added up.
    private const double Rounding = 1e-4;

    /// <summary>The first contradiction in document order; null where there is none.</summary>
    /// <param name="iso">An ISO, each value of it in its domain.</param>
    public static DocumentFault? FirstOf(IsoProfile iso) => iso.Levels
        .SelectMany((level, l) => level.Channels.Select((channel, c) => Of(level, channel, string.Create(CultureInfo.InvariantCulture, $"levels[{l}].channels[{c}]"))))
        .FirstOrDefault(fault => fault is not null);

    private static DocumentFault? Of(LevelRecord level, LevelChannel channel, string path) =>
        channel.FrameMeansDn.Count != level.Frames
            ? new DocumentFault($"{path}.frameMeansDn", string.Create(CultureInfo.InvariantCulture, $"holds {channel.FrameMeansDn.Count} means of {level.Frames} frames"))
            : !IsAbout(channel.MeanDn, channel.FrameMeansDn.Average(), channel.FrameMeansDn.Max(Math.Abs))
                ? new DocumentFault($"{path}.meanDn", "is not the mean of frameMeansDn")
                : channel.MeanDn < channel.LowestCodeDn || channel.MeanDn > channel.HighestCodeDn
                    ? new DocumentFault($"{path}.meanDn", "lies outside the codes that were met")
                    : channel.SpotMeanDn is null != channel.SpotMeanUncertaintyDn is null
                        ? new DocumentFault($"{path}.spotMeanUncertaintyDn", "does not go with spotMeanDn: one of them is missing")
                        : OfParts(channel.TemporalVarianceDn2, channel.TemporalParts, $"{path}.temporalVarianceDn2")
                            ?? OfParts(channel.FixedPatternVarianceDn2, channel.FixedPatternParts, $"{path}.fixedPatternVarianceDn2");

    private static DocumentFault? OfParts(double? varianceDn2, VarianceParts? parts, string path) => (varianceDn2, parts) switch
    {
        (null, null) => null,
        ({ } whole, { } p) when IsAbout(whole, Math.Max(0, p.PixelDn2 + p.RowDn2 + p.ColumnDn2), Math.Abs(p.PixelDn2) + Math.Abs(p.RowDn2) + Math.Abs(p.ColumnDn2)) => null,
        _ => new DocumentFault(path, "is not the sum of its parts"),
    };

    private static bool IsAbout(double value, double other, double scale) => Math.Abs(value - other) <= Rounding * scale;
}
