using MathNet.Numerics.LinearAlgebra;
using SensorLab.Measurement.Fitting;
using SensorLab.Measurement.Noise;
using SensorLab.Measurement.Uncertainty;

namespace SensorLab.Measurement.Latitude;

/// <summary>The bend of a response from nominal exposures: as good as shutter and lamp are, which its scatter tells but for what is smooth.</summary>
/// <remarks>ln(S/exposure) = a − b·S + c/S, c for a black that is off; the greens (or Y) of the longest series under one light.</remarks>
internal static class ExposureBend
{
    private const double LowestShare = 0.02;
    private const double HighestShare = 0.9;
    private const int Parameters = 3;

    /// <summary>The bend in 1/DN with its standard uncertainty; null with fewer than six levels.</summary>
    /// <param name="channel">The channel fitted with a straight response.</param>
    public static Estimate? Of(ChannelModel channel)
    {
        double black = channel.Noise[NoiseParameter.BlackDn];
        double full = (channel.Saturation?.MeanDn?.Value ?? channel.Levels.Where(l => !l.IsDark).Max(l => l.Channel.MeanDn)) - black;
        ChannelLevel[] series = channel.Levels
            .Where(l => l.Level.Role == "bracket" && l.Channel.ClippedFraction <= 0
                && l.Channel.MeanDn - black > LowestShare * full && l.Channel.MeanDn - black < HighestShare * full)
            .GroupBy(l => (l.Level.LightStep, l.Level.ApertureFNumber))
            .Select(g => g.ToArray())
            .MaxBy(g => g.Length) ?? [];
        if (series.Length < 2 * Parameters)
        {
            return null;
        }

        double[] signals = [.. series.Select(l => l.Channel.MeanDn - black)];
        Matrix<double> design = Matrix<double>.Build.Dense(series.Length, Parameters, (row, column) => column switch
        {
            0 => 1,
            1 => -signals[row] / full,
            _ => LowestShare * full / signals[row],
        });
        Vector<double> logs = Vector<double>.Build.Dense(series.Length, i => Math.Log(signals[i] / series[i].Exposure));
        return LinearLeastSquares.Fit(design, logs) is { } fit
            ? new Estimate(fit.Parameters[1] / full, fit.StandardUncertainty(1) / full, fit.DegreesOfFreedom)
            : null;
    }
}
