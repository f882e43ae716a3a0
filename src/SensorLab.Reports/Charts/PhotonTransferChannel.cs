using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>One channel of the photon-transfer chart.</summary>
/// <param name="Name">R, G1, G2, B or Y.</param>
/// <param name="Gain">Gain as printed.</param>
/// <param name="Points">Dark levels first, then in rising signal.</param>
internal sealed record PhotonTransferChannel(
    string Name, string Gain, IReadOnlyList<PhotonTransferPoint> Points)
{
    /// <summary>The profile's own noise model, its bend included; null where it could not be had.</summary>
    internal NoiseModel? Model { get; private init; }

    /// <summary>Builds the channel.</summary>
    /// <param name="iso">The ISO.</param>
    /// <param name="channel">The channel's figures.</param>
    public static PhotonTransferChannel From(IsoProfile iso, ChannelProfile channel)
    {
        (LevelRecord Level, LevelChannel Channel)[] levels =
        [
            .. from level in iso.Levels
               where level.Role is RoleName.Dark or RoleName.Bracket or RoleName.Metered
               from measured in level.Channels
               where measured.Name == channel.Name && measured.TemporalVarianceDn2 is not null
               select (level, measured),
        ];
        double step = PublishedModel.CodeStepDn(iso, channel.Name);
        NoiseModel? model = PublishedModel.Of(iso, channel);
        double? black = channel.BlackLevelDn?.Value;
        PhotonTransferPoint[] points = black is { } blackDn
            ? [.. levels.Select(l => PointOf(l.Level, l.Channel, channel, blackDn, model, step)).OrderBy(p => !p.IsDark).ThenBy(p => p.SignalDn)]
            : [];
        return new PhotonTransferChannel(channel.Name, FigureText.WithInterval(channel.GainElectronPerDn, "e⁻/DN"), points) { Model = model };
    }

    private static PhotonTransferPoint PointOf(
        LevelRecord level, LevelChannel measured, ChannelProfile channel, double blackDn, NoiseModel? model, double stepDn)
    {
        bool dark = level.Role == RoleName.Dark;
        double signal = dark ? 0 : measured.MeanDn - blackDn;
        double variance = measured.TemporalVarianceDn2!.Value;
        double? uncertainty = LevelVariance.TemporalUncertaintyDn2(level, measured);
        double widened = RoundingNoise.VarianceDn2(Math.Max(stepDn, measured.CodeStepDn)) - RoundingNoise.VarianceDn2(stepDn);
        double? residual = model is not null && uncertainty is > 0 ? (variance - widened - model.TemporalVarianceAt(signal)) / uncertainty : null;
        return new PhotonTransferPoint(signal, variance, residual, dark, measured.UsedInFit ? null : Reason(measured, channel, signal));
    }

    private static string Reason(LevelChannel measured, ChannelProfile channel, double signalDn)
    {
        if (measured.ClippedFraction > 0)
        {
            return "pixels clip";
        }

        double? saturation = channel.SaturationDn?.Value ?? channel.SaturationDn?.AtLeast;
        return signalDn > FitRange.HighestShare * saturation ? "above 70 % of saturation" : "another reason, see the findings";
    }
}
