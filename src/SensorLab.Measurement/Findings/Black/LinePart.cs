using SensorLab.Pixels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Black;

/// <summary>What the lines of a channel share in one level, beside what their pixels' own noise lets their means scatter.</summary>
/// <param name="VarianceDn2">Variance of the lines beyond that, in DN².</param>
/// <param name="ExpectedDn2">Variance of a line's mean by its pixels' noise, in DN².</param>
/// <param name="RelativeUncertainty">Standard uncertainty of both together, as a share of them.</param>
internal readonly record struct LinePart(double VarianceDn2, double ExpectedDn2, double RelativeUncertainty)
{
    /// <summary>How far beyond chance the lines stand out: a ratio of variances, judged by its logarithm.</summary>
    public double Deviations => VarianceDn2 <= 0 ? 0 : Math.Log((VarianceDn2 + ExpectedDn2) / ExpectedDn2) / RelativeUncertainty;

    /// <summary>Lines that change from frame to frame.</summary>
    public static LinePart Temporal(EvidenceLevel level, int channel, bool rows)
    {
        VarianceParts parts = level.Record.Channels[channel].TemporalParts!;
        return Of(level, channel, rows, parts, parts.PixelDn2, 0);
    }

    /// <summary>Lines that are the same in every frame.</summary>
    public static LinePart Fixed(EvidenceLevel level, int channel, bool rows)
    {
        VarianceParts temporal = level.Record.Channels[channel].TemporalParts!;
        VarianceParts parts = level.Record.Channels[channel].FixedPatternParts!;
        double frames = level.Record.Frames;
        double lines = Math.Max(0, rows ? temporal.RowDn2 : temporal.ColumnDn2) / frames;
        return Of(level, channel, rows, parts, Math.Max(0, parts.PixelDn2) + (temporal.PixelDn2 / frames), lines);
    }

    private static LinePart Of(EvidenceLevel level, int channel, bool rows, VarianceParts parts, double pixelDn2, double linesDn2)
    {
        ChannelStatistics statistics = level.Statistics.Channels[channel];
        double perLine = (double)statistics.Pixels / (rows ? statistics.Rows : statistics.Columns);
        double value = rows ? parts.RowDn2 : parts.ColumnDn2;
        double expected = (pixelDn2 / perLine) + linesDn2;
        double uncertainty = rows ? parts.RowUncertaintyDn2 : parts.ColumnUncertaintyDn2;
        return new LinePart(value, expected, uncertainty / Math.Max(value + expected, 0.1 * expected));
    }
}
