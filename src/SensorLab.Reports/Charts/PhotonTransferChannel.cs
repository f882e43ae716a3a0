using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>One channel of the photon-transfer chart.</summary>
/// <param name="Name">R, G1, G2, B or Y.</param>
/// <param name="Fit">The fitted noise model; null where it could not be had.</param>
/// <param name="Gain">Gain as printed.</param>
/// <param name="Points">Dark levels first, then in rising signal.</param>
internal sealed record PhotonTransferChannel(
    string Name, PhotonTransferFit? Fit, string Gain, IReadOnlyList<PhotonTransferPoint> Points)
{
    // The share of saturation below which levels serve the fit (measurement model, photon transfer; EMVA 1288 R4).
    private const double FitShareOfSaturation = 0.7;

    /// <summary>Builds the channel.</summary>
    /// <param name="iso">The ISO.</param>
    /// <param name="channel">The channel's figures.</param>
    public static PhotonTransferChannel From(IsoProfile iso, ChannelProfile channel)
    {
        (LevelRecord Level, LevelChannel Channel)[] levels =
        [
            .. from level in iso.Levels
               where level.Role is "dark" or "bracket" or "metered"
               from measured in level.Channels
               where measured.Name == channel.Name && measured.TemporalVarianceDn2 is not null
               select (level, measured),
        ];
        double step = levels.Select(l => l.Channel.CodeStepDn).DefaultIfEmpty(1).Min();
        PhotonTransferFit? fit = PhotonTransferFit.Of(channel, step);
        double? black = channel.BlackLevelDn?.Value;
        PhotonTransferPoint[] points = black is { } blackDn
            ? [.. levels.Select(l => PointOf(l.Level, l.Channel, channel, blackDn, fit)).OrderBy(p => !p.IsDark).ThenBy(p => p.SignalDn)]
            : [];
        return new PhotonTransferChannel(channel.Name, fit, FigureText.WithInterval(channel.GainElectronPerDn, "e⁻/DN"), points);
    }

    private static PhotonTransferPoint PointOf(
        LevelRecord level, LevelChannel measured, ChannelProfile channel, double blackDn, PhotonTransferFit? fit)
    {
        bool dark = level.Role == "dark";
        double signal = dark ? 0 : measured.MeanDn - blackDn;
        double variance = measured.TemporalVarianceDn2!.Value;
        double? uncertainty = LevelVariance.TemporalUncertainty(level, measured);
        double? residual = fit is { } model && uncertainty is > 0 ? (variance - model.VarianceDn2(signal)) / uncertainty : null;
        return new PhotonTransferPoint(signal, variance, residual, dark, measured.UsedInFit ? null : Reason(measured, channel, signal));
    }

    private static string Reason(LevelChannel measured, ChannelProfile channel, double signalDn)
    {
        if (measured.ClippedFraction > 0)
        {
            return "pixels clip";
        }

        double? saturation = channel.SaturationDn?.Value ?? channel.SaturationDn?.AtLeast;
        return signalDn > FitShareOfSaturation * saturation ? "above 70 % of saturation" : "another reason, see the findings";
    }
}
