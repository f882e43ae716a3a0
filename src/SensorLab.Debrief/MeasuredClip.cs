using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Debrief;

/// <summary>Where a channel clips at an ISO, by what was measured and not by what files declare.</summary>
/// <remarks>
/// Where the converter ends the range, codes pile up at one: a photosite there is clipped. Where the full well does, the plateau
/// has noise of its own, by the level that lies on it: a photosite within three of its standard deviations is on the plateau.
/// </remarks>
internal sealed record MeasuredClip
{
    /// <summary>Standard deviations of the plateau that a clipped photosite may lie below it: one in a thousand is missed.</summary>
    private const double PlateauDeviations = 3;

    /// <summary>How far below the plateau a level's mean may lie for its noise to be the plateau's, as a share of the signal.</summary>
    private const double PlateauShare = 0.003;

    /// <summary>The share of a level's photosites at its highest code from which that code is the converter's end.</summary>
    private const double PileShare = 0.01;

    private MeasuredClip(string channel, double blackDn, int codeDn, double saturationDn, ResponseCurve response, double greyDn, double uncertaintyEv)
    {
        Channel = channel;
        BlackDn = blackDn;
        CodeDn = codeDn;
        Response = response;
        SaturationLinearDn = response.LinearOf(saturationDn);
        GreyLinearDn = response.LinearOf(greyDn);
        StandardUncertaintyEv = uncertaintyEv;
    }

    /// <summary>The channel's name.</summary>
    public string Channel { get; }

    /// <summary>Black level in DN.</summary>
    public double BlackDn { get; }

    /// <summary>The lowest code of a clipped photosite.</summary>
    public int CodeDn { get; }

    /// <summary>How recorded signal follows exposure.</summary>
    public ResponseCurve Response { get; }

    /// <summary>Saturation in DN of a straight response.</summary>
    public double SaturationLinearDn { get; }

    /// <summary>Middle grey in DN of a straight response; NaN where it was not measured.</summary>
    public double GreyLinearDn { get; }

    /// <summary>Standard uncertainty of saturation in EV, whatever set is shot.</summary>
    public double StandardUncertaintyEv { get; }

    /// <summary>EV from middle grey to saturation in this channel; NaN where middle grey was not measured.</summary>
    public double AboveEv => Math.Log2(SaturationLinearDn / GreyLinearDn);

    /// <summary>Stops from a recorded signal to saturation.</summary>
    /// <param name="signalDn">Mean signal above black in DN.</param>
    /// <returns>Positive below saturation, 0 at it or beyond; <see cref="float.PositiveInfinity"/> without signal.</returns>
    public double HeadroomEv(double signalDn)
    {
        double linear = Response.LinearOf(signalDn);
        return signalDn <= 0 ? double.PositiveInfinity : double.IsNaN(linear) ? 0 : Math.Max(0, Math.Log2(SaturationLinearDn / linear));
    }

    /// <summary>The clip of a channel.</summary>
    /// <param name="iso">The ISO.</param>
    /// <param name="channel">Its channel.</param>
    /// <returns>Null where black or saturation was not measured, or saturation is a bound.</returns>
    public static MeasuredClip? Of(IsoProfile iso, ChannelProfile channel)
    {
        if (channel.BlackLevelDn?.Value is not { } black || channel.SaturationDn is not { Value: > 0 and { } saturation } figure)
        {
            return null;
        }

        double plateau = black + saturation;
        double uncertainty = (figure.OfBody().StandardUncertainty ?? 0) / (saturation * Math.Log(2));
        ResponseCurve response = PublishedModel.Response(channel);
        double grey = channel.MiddleGreyDn?.Value ?? double.NaN;
        return new MeasuredClip(channel.Name, black, CodeOf(iso, channel.Name, plateau, saturation), saturation, response, grey, uncertainty);
    }

    private static int CodeOf(IsoProfile iso, string name, double plateau, double saturation)
    {
        LevelChannel[] lit = [.. iso.Levels.Where(l => RoleName.IsLit(l.Role)).SelectMany(l => l.Channels).Where(c => c.Name == name)];
        int[] piles = [.. lit.Where(c => c.ClippedFraction > PileShare).Select(c => c.HighestCodeDn).OfType<int>()];
        if (piles.Length > 0)
        {
            return piles.Max();
        }

        double variance = lit
            .Where(c => c.MeanDn >= plateau - (PlateauShare * saturation))
            .Select(c => (c.TemporalVarianceDn2 ?? 0) + (c.FixedPatternVarianceDn2 ?? 0))
            .DefaultIfEmpty(0)
            .Min();
        return (int)Math.Floor(plateau - (PlateauDeviations * Math.Sqrt(Math.Max(variance, 1.0 / 12))));
    }
}
