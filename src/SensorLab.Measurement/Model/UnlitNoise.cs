using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Levels;

namespace SensorLab.Measurement.Model;

/// <summary>The noise of a pixel without light by two witnesses: dark frames have it, and lit ones leave it where their photons' noise is taken off.</summary>
/// <remarks>
/// They part where a dark frame was disturbed, where dark frames are read in another mode (fewer bits, a dark frame taken
/// off in the camera), or where the noise moved with time or warmth: then nothing tells which of them a photograph has.
/// A term of S² beside the line keeps what lit frames say clear of a bend and of noise that grows with the light.
/// </remarks>
/// <param name="DarkDn2">Temporal variance of dark frames' pixels in DN², dark signal's own noise taken off.</param>
/// <param name="LitDn2">What lit frames leave at no light, in DN².</param>
/// <param name="IsLitLine">Whether the lit frames alone keep to a straight line, so that nothing else is the matter.</param>
internal sealed record UnlitNoise(Estimate DarkDn2, Estimate LitDn2, bool IsLitLine)
{
    /// <summary>Whether the witnesses part by more than chance.</summary>
    public bool AreApart => Math.Abs(DarkDn2.Value - LitDn2.Value) > Significance.WellKnown * double.Hypot(DarkDn2.StandardUncertainty, LitDn2.StandardUncertainty);

    /// <summary>By how much the variance may be off where they part, in DN²: it may lie anywhere between them.</summary>
    public double DoubtDn2 => AreApart ? Math.Abs(DarkDn2.Value - LitDn2.Value) / Math.Sqrt(3) : 0;

    /// <summary>Asks a channel's levels.</summary>
    /// <param name="channel">The channel.</param>
    /// <returns>What they say; null where dark levels or four lit ones are missing from the fit.</returns>
    public static UnlitNoise? Of(ChannelModel channel)
    {
        if (channel.PhotonTransfer is not { } line)
        {
            return null;
        }

        BlackDrift drift = channel.BlackDrift.WithForetoldShift();
        (ObservedLevel Level, PhotonTransferPoint Point, double Deviation)[] all =
        [
            .. channel.Levels.Where(l => channel.FitLevels.Contains(l.Level))
                .Select(l => (Level: l, Point: PhotonTransferPoint.Of(l, channel.Noise[NoiseParameter.BlackDn], channel.Noise.Response, channel.CodeStepDn, drift)))
                .Select(p => (p.Level, p.Point, Math.Sqrt(PhotonTransferEstimator.VarianceOfVariance(line, p.Point) + ChannelObservations.RoundingDoubtDn4(p.Level)))),
        ];
        (PhotonTransferPoint Point, double Deviation)[] lit = [.. all.Where(p => !p.Level.IsDark).Select(p => (p.Point, p.Deviation))];
        Estimate[] dark = channel.UnlitByCodesDn2 is { } byCodes
            ? [byCodes]
            : [.. all.Where(p => p.Level.IsDark).Select(p => new Estimate(p.Point.VarianceDn2 - (line.GainDnPerElectron * p.Point.SignalDn), p.Deviation))];
        if (dark.Length == 0 || VarianceParabola.Intercept([.. lit.Select(p => p.Point.SignalDn)], [.. lit.Select(p => p.Point.VarianceDn2)], [.. lit.Select(p => p.Deviation)]) is not { } left)
        {
            return null;
        }

        bool isLine = PhotonTransferEstimator.Fit([.. lit.Select(p => p.Point)]) is { } alone && ChiSquareTest.ScatterFactor(alone.ChiSquare, alone.DegreesOfFreedom) == 1;
        return new UnlitNoise(Estimate.WeightedMean(dark), left, isLine);
    }
}
