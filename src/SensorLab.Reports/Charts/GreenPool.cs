using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>The two greens pooled (Y in monochrome): what an ISO's SNR is of.</summary>
internal static class GreenPool
{
    // Half-width of a 95 % interval over the standard uncertainty (JCGM 100:2008, G.6.6).
    private const double Coverage95 = 1.96;

    /// <summary>Whether a channel belongs to the pool.</summary>
    /// <param name="channel">R, G1, G2, B or Y.</param>
    public static bool Holds(string channel) => channel is "G1" or "G2" or "Y";

    /// <summary>SNR of a level: mean signal over noise, the greens' signals and variances averaged.</summary>
    /// <param name="level">The level.</param>
    /// <param name="blackDn">Black level by channel in DN.</param>
    /// <param name="total">With fixed pattern, or temporal noise alone.</param>
    /// <returns>The point at the level's EV, or null where the level has no EV, no variance or no signal.</returns>
    /// <remarks>SNR = S/σ, EMVA 1288 R4; the interval covers the variance's uncertainty where the level carries it.</remarks>
    public static ChartPoint? Snr(LevelRecord level, IReadOnlyDictionary<string, double> blackDn, bool total)
    {
        LevelChannel[] greens = [.. level.Channels.Where(c => Holds(c.Name) && blackDn.ContainsKey(c.Name))];
        if (level.Ev is not { } ev || greens.Length == 0 || !Array.TrueForAll(greens, c => HasVariance(c, total)))
        {
            return null;
        }

        double signal = greens.Average(c => c.MeanDn - blackDn[c.Name]);
        double variance = greens.Average(c => c.TemporalVarianceDn2!.Value + (total ? c.FixedPatternVarianceDn2!.Value : 0));
        if (signal <= 0 || variance <= 0)
        {
            return null;
        }

        double snr = signal / Math.Sqrt(variance);
        double? uncertainty = VarianceUncertainty(greens, total);
        if (uncertainty is not { } u)
        {
            return new ChartPoint(ev, snr);
        }

        double widest = Coverage95 * u / variance;
        return new ChartPoint(ev, snr, snr / Math.Sqrt(1 + widest), widest < 1 ? snr / Math.Sqrt(1 - widest) : null);
    }

    private static bool HasVariance(LevelChannel channel, bool total) =>
        channel.TemporalVarianceDn2 is not null && (!total || channel.FixedPatternVarianceDn2 is not null);

    private static double? VarianceUncertainty(LevelChannel[] greens, bool total)
    {
        double sum = 0;
        foreach (LevelChannel channel in greens)
        {
            if (channel.TemporalParts is not { } temporal || (total && channel.FixedPatternParts is null))
            {
                return null;
            }

            sum += LevelVariance.SquaredUncertainty(temporal);
            sum += total ? LevelVariance.SquaredUncertainty(channel.FixedPatternParts!) : 0;
        }

        return Math.Sqrt(sum) / greens.Length;
    }
}
