using SensorLab.Profiles;

namespace SensorLab.Law;

/// <summary>The SNR of one level as measured, the greens pooled (Y in monochrome): what an ISO's curve is held against.</summary>
/// <param name="Snr">Of one pixel, as against exposure: where the response bends, its slope counts.</param>
/// <param name="Lower95">Lower end of the 95 % interval; null where the level does not say how uncertain its variances are.</param>
/// <param name="Upper95">Upper end; null where the level does not say, or where the interval has none.</param>
/// <remarks>SNR = S/σ, EMVA 1288 R4, S times the slope of the response over its mean slope; signals and variances of the greens averaged.</remarks>
public readonly record struct LevelSnr(double Snr, double? Lower95, double? Upper95)
{
    /// <summary>The SNR of a level.</summary>
    /// <param name="level">The level.</param>
    /// <param name="channels">The figures of its ISO's channels.</param>
    /// <param name="total">With fixed pattern, or temporal noise alone.</param>
    /// <returns>The SNR; null where the level has no variance or no signal, or black was not measured.</returns>
    public static LevelSnr? Of(LevelRecord level, IReadOnlyList<ChannelProfile> channels, bool total)
    {
        var greens = (
            from measured in level.Channels
            where ChannelName.IsPooled(measured.Name)
            let figures = channels.FirstOrDefault(c => c.Name == measured.Name)
            where figures?.BlackLevelDn?.Value is not null
            select (Measured: measured, Figures: figures)).ToArray();
        if (greens.Length == 0 || !Array.TrueForAll(greens, g => HasVariance(g.Measured, total)))
        {
            return null;
        }

        double signal = greens.Average(g => PublishedModel.Response(g.Figures).ResponsiveSignalOf(g.Measured.MeanDn - g.Figures.BlackLevelDn!.Value!.Value));
        double variance = greens.Average(g => g.Measured.TemporalVarianceDn2!.Value + (total ? g.Measured.FixedPatternVarianceDn2!.Value : 0));
        if (signal <= 0 || variance <= 0)
        {
            return null;
        }

        double snr = signal / Math.Sqrt(variance);
        if (VarianceUncertaintyDn2([.. greens.Select(g => g.Measured)], total) is not { } uncertainty)
        {
            return new LevelSnr(snr, null, null);
        }

        double widest = Figure.NormalFactor95 * uncertainty / variance;
        return new LevelSnr(snr, snr / Math.Sqrt(1 + widest), widest < 1 ? snr / Math.Sqrt(1 - widest) : null);
    }

    private static bool HasVariance(LevelChannel channel, bool total) =>
        channel.TemporalVarianceDn2 is not null && (!total || channel.FixedPatternVarianceDn2 is not null);

    private static double? VarianceUncertaintyDn2(LevelChannel[] greens, bool total)
    {
        double sum = 0;
        foreach (LevelChannel channel in greens)
        {
            if (channel.TemporalParts is not { } temporal || (total && channel.FixedPatternParts is null))
            {
                return null;
            }

            sum += LevelVariance.SquaredUncertaintyDn4(temporal);
            sum += total ? LevelVariance.SquaredUncertaintyDn4(channel.FixedPatternParts!) : 0;
        }

        return Math.Sqrt(sum) / greens.Length;
    }
}
