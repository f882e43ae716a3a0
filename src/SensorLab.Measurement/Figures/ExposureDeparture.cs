using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Figures;

/// <summary>How signals leave proportion to nominal exposure: the response's doing, which moves the gain, or the shutter's or the lamp's, which does not.</summary>
internal static class ExposureDeparture
{
    /// <summary>Whether channels of different sensitivity tell whose it is: they share shutter and lamp, and meet the response at different signals.</summary>
    /// <param name="iso">The ISO as it was fitted.</param>
    public static bool IsToldByChannels(IsoProfile iso) => iso.Levels.Where(l => l.Role == RoleName.Bracket).Any(level =>
    {
        double[] signals = [.. iso.Channels.Select(c => SignalDn(level, c)).OfType<double>().Where(s => s > 0)];
        return signals.Length > 0 && SignalShare.AreDistinct(signals);
    });

    /// <summary>By how much the response may change over the levels that the noise is fitted to, if it were the response's, as a natural logarithm; 0 where too few levels tell.</summary>
    /// <param name="iso">The ISO as it was fitted.</param>
    public static double InFit(IsoProfile iso) => iso.Channels.Max(c => c is { SaturationDn.Value: { } end, BlackLevelDn.Value: { } black }
        ? iso.Levels.Where(l => l.Role == RoleName.Bracket).GroupBy(l => (l.LightStep, l.ApertureFNumber), l => (Exposure: l.ExposureSeconds, SignalDn: SignalDn(l, c) ?? 0)).Select(series => RangeOf([.. series], end - black)).DefaultIfEmpty(0).Max()
        : 0);

    private static double RangeOf((double Exposure, double SignalDn)[] levels, double fullDn)
    {
        bool[] counting = LinearitySeries.Counting(levels, fullDn);
        double[] responses = [.. levels.Where((l, i) => counting[i] && l.SignalDn <= FitRange.HighestShare * fullDn).Select(l => Math.Log(l.SignalDn / l.Exposure))];
        return responses.Length > 1 ? responses.Max() - responses.Min() : 0;
    }

    private static double? SignalDn(LevelRecord level, ChannelProfile channel) =>
        channel.BlackLevelDn?.Value is { } black && level.Channels.FirstOrDefault(c => c.Name == channel.Name) is { } own ? own.MeanDn - black : null;
}
