using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Measurement.Fitting;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Model;

namespace SensorLab.Measurement.Response;

/// <summary>The bend of a response from the photon-transfer curve: shot noise is recorded with the slope of the response, hence its variance falls off three times as fast as the signal.</summary>
/// <remarks>
/// Variance of channel c at level l: I_c + K_c·S·(1 − b·S)³, all channels with one b. What is known of b from signals
/// alone joins as one more observation; the outcome is then that of the likelihood of means and variances together.
/// </remarks>
internal static class VarianceBend
{
    /// <summary>Rounds in which the weights, which follow the model, settle.</summary>
    private const int Rounds = 4;

    /// <summary>The bend in 1/DN with its standard uncertainty; null where the levels do not tell it.</summary>
    /// <param name="channels">The channels fitted with a straight response.</param>
    /// <param name="known">What is known of it otherwise; null where nothing is.</param>
    public static Estimate? Of(IReadOnlyList<ChannelModel> channels, Estimate? known)
    {
        ChannelModel[] fitted = [.. channels.Where(c => c.PhotonTransfer is { DegreesOfFreedom: > 1 })];
        if (fitted.Length == 0)
        {
            return null;
        }

        ChannelLevel[][] levels = [.. fitted.Select(c => c.Levels.Where(l => c.FitLevels.Contains(l.Level)).ToArray())];
        double top = fitted.Select((c, i) => levels[i].Max(l => l.Channel.MeanDn) - c.Noise[NoiseParameter.BlackDn]).Max();
        Estimate? bend = known;
        for (int round = 0; round < Rounds; round++)
        {
            bend = Solve(fitted, levels, top, known, new ResponseCurve(bend?.Value ?? 0));
            if (bend is null)
            {
                return null;
            }
        }

        return bend;
    }

    /// <summary>One fit, with weights from the lines under a given response.</summary>
    private static Estimate? Solve(ChannelModel[] channels, ChannelLevel[][] levels, double top, Estimate? known, ResponseCurve response)
    {
        PhotonTransferPoint[][] bent = [.. channels.Select((c, i) => Points(c, levels[i], response))];
        PhotonTransfer?[] lines = [.. bent.Select(PhotonTransferEstimator.Fit)];
        if (lines.Any(l => l is null))
        {
            return null;
        }

        (int Channel, PhotonTransferPoint Recorded, double Deviation)[] points = [.. channels.SelectMany((c, i) =>
            Points(c, levels[i], default).Select((p, l) => (i, p, Math.Sqrt(PhotonTransferEstimator.VarianceOfVariance(lines[i]!, bent[i][l])))))];
        int values = points.Length + (known is null ? 0 : 1);
        Vector<double> Residuals(Vector<double> at) => Vector<double>.Build.Dense(values, i =>
        {
            if (i == points.Length)
            {
                return (at[0] - (known!.Value.Value * top)) / (known.Value.StandardUncertainty * top);
            }

            (int channel, PhotonTransferPoint point, double deviation) = points[i];
            double signal = new ResponseCurve(at[0] / top).ShotSignalOf(point.SignalDn);
            return (at[1 + (2 * channel)] + (at[2 + (2 * channel)] * signal) - point.VarianceDn2) / deviation;
        });

        double[] start = [response.BendPerDn * top, .. lines.SelectMany(l => new[] { l!.InterceptDn2, l.GainDnPerElectron })];
        double[] scales = [0.1, .. lines.SelectMany(l => new[] { Math.Max(1e-3, Math.Abs(l!.InterceptDn2)), l.GainDnPerElectron })];
        return NonlinearLeastSquares.Fit(Residuals, start, scales) is { Converged: true } fit
            ? new Estimate(fit.Parameters[0] / top, Math.Sqrt(fit.UnitCovariance[0, 0]) / top)
            : null;
    }

    private static PhotonTransferPoint[] Points(ChannelModel channel, ChannelLevel[] levels, ResponseCurve response) =>
        [.. levels.Select(l => ChannelModelBuilder.ToPoint(l, channel.Noise[NoiseParameter.BlackDn], response, channel.CodeStepDn, channel.BlackDrift))];
}
