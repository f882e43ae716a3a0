using SensorLab.Law;
using SensorLab.Measurement.Model;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Response;

/// <summary>Whether and how the response of an ISO bends below the clip.</summary>
/// <remarks>
/// Three witnesses: channels of different sensitivity under one light, which no shutter or lamp misleads; the slope of
/// variance against signal, which a noise that the model does not know misleads; and nominal exposures, which shutters
/// and lamps mislead. Where the channels can tell, they decide, and the others join where they agree. Where they cannot
/// (alike in sensitivity, or one alone), variance decides; exposures join where they agree with it, and against them it
/// stands only where the bend leaves it on a line, and with the doubt that they are right: noise that was smoothed in
/// bright frames alone bends nothing.
/// </remarks>
internal static class ResponseEstimator
{
    /// <summary>Standard uncertainty, as a share missing at saturation, to which the channels' word stands against the others'.</summary>
    private const double TellingShare = 0.005;

    /// <summary>The smallest bend that matters, as a share missing at saturation: what changes gain by half a percent.</summary>
    private const double SmallestShare = 0.004;

    /// <summary>The bend in 1/DN with its standard uncertainty, what it rests on, and by how much it may be off where exposures contradict it; null for a response that is straight as far as can be told.</summary>
    /// <param name="channels">The channels of an ISO, fitted with a straight response.</param>
    /// <param name="fit">The bend as the fit of all variances finds it, given what is known of it otherwise; null where the levels do not tell.</param>
    public static (Estimate Found, BendKnowledge Knowledge, double DoubtPerDn)? Of(IReadOnlyList<ChannelModel> channels, Func<BendKnowledge, IsoFit?> fit)
    {
        double full = channels.Max(c => c.Noise.SaturationSignalDn is var s && double.IsFinite(s) ? s : (c.Saturation?.HighestMeanDn ?? double.NaN) - c.Noise[NoiseParameter.BlackDn]);
        if (!double.IsFinite(full) || channels.All(c => c.PhotonTransfer is null) || fit(BendKnowledge.None) is not { } free)
        {
            return null;
        }

        Estimate? ratios = ChannelRatioBend.Of(channels) is { } told && told.StandardUncertainty * full < TellingShare ? told : null;
        Estimate? exposures = ratios is null ? ExposuresOf(channels) : null;
        BendKnowledge? knowledge = ratios is { } sure
            ? new BendKnowledge(sure, VariancesJoin: Agree(sure, free.Bend))
            : WithoutRatios(exposures, free);
        return knowledge is { } known && fit(known)?.Bend is { } found && Math.Abs(found.Value) * full > SmallestShare && Math.Abs(found.Value) > Significance.Bend * found.StandardUncertainty
            ? (found, known, known.Known is null && exposures is { } other ? Math.Abs(found.Value - other.Value) / Math.Sqrt(3) : 0)
            : null;
    }

    /// <summary>What exposures tell, by the greens or Y; null where they do not.</summary>
    private static Estimate? ExposuresOf(IReadOnlyList<ChannelModel> channels) =>
        ExposureBend.Of(channels.FirstOrDefault(c => ChannelName.LeadsPool(c.Name)) ?? channels[0]) is { StandardUncertainty: > 0 } told ? told : null;

    /// <summary>Variance and exposures together; variance alone only for a compression, since noise unknown to the model looks like the contrary.</summary>
    private static BendKnowledge? WithoutRatios(Estimate? exposures, IsoFit variances)
    {
        if (exposures is { } known && Agree(variances.Bend, known))
        {
            return new BendKnowledge(known, VariancesJoin: true);
        }

        return variances.Bend.Value > 0 && (exposures is null || variances.KeepsToLines) ? BendKnowledge.None : null;
    }

    private static bool Agree(Estimate first, Estimate second) =>
        Math.Abs(first.Value - second.Value) <= Significance.Witnesses * double.Hypot(first.StandardUncertainty, second.StandardUncertainty);
}

/// <summary>What is known of a response's bend before variances are asked.</summary>
/// <param name="Known">The bend in 1/DN as signals alone tell it; null where they don't.</param>
/// <param name="VariancesJoin">Whether variances may move it: not where they contradict what signals tell.</param>
internal readonly record struct BendKnowledge(Estimate? Known, bool VariancesJoin)
{
    /// <summary>Nothing is known: variances alone tell.</summary>
    public static BendKnowledge None { get; } = new(null, VariancesJoin: true);
}
