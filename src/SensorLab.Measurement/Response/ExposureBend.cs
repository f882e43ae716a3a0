using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Measurement.Fitting;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Model;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Response;

/// <summary>The bend of a response from nominal exposures: as good as shutter and lamp are, which its scatter tells but for what is smooth.</summary>
/// <remarks>ln(S/exposure) = a − b·S + c/S, c for a black that is off; the greens (or Y) of the longest series under one light.</remarks>
internal static class ExposureBend
{
    private const int Parameters = 3;

    /// <summary>The bend in 1/DN with its standard uncertainty; null with fewer than six levels.</summary>
    /// <param name="channel">The channel fitted with a straight response.</param>
    public static Estimate? Of(ChannelModel channel)
    {
        var range = ResponseRange.Of(channel);
        ObservedLevel[] series = channel.Levels
            .Where(l => l.Level.Role == RoleName.Bracket && range.Holds(l))
            .GroupBy(l => (l.Level.LightStep, l.Level.ApertureFNumber))
            .Select(g => g.ToArray())
            .MaxBy(g => g.Length) ?? [];
        if (series.Length < 2 * Parameters)
        {
            return null;
        }

        double[] signals = [.. series.Select(range.SignalDn)];
        Matrix<double> design = Matrix<double>.Build.Dense(series.Length, Parameters, (row, column) => column switch
        {
            0 => 1,
            1 => -signals[row] / range.FullDn,
            _ => range.LowestDn / signals[row],
        });
        Vector<double> logs = Vector<double>.Build.Dense(series.Length, i => Math.Log(signals[i] / series[i].Exposure));
        return LinearLeastSquares.Fit(design, logs) is { } fit
            ? new Estimate(fit.Parameters[1] / range.FullDn, fit.StandardUncertainty(1) / range.FullDn, fit.DegreesOfFreedom)
            : null;
    }
}
