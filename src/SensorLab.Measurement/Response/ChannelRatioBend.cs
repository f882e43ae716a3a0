using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Measurement.Fitting;
using SensorLab.Measurement.Model;

namespace SensorLab.Measurement.Response;

/// <summary>The bend of a response from channels of different sensitivity that share each level's light.</summary>
/// <remarks>
/// ln x_cl = a_c + e_l: what channel c sees of level l, whatever exposure and lamp really were (the signal-ratio method:
/// shutter error and flicker are part of e_l). Signals are x = S/(1 − b·S), the same b in DN for all channels of an ISO.
/// A black that is off by δ in all channels bends the dim end; it is fitted beside.
/// </remarks>
internal static class ChannelRatioBend
{
    /// <summary>What ratios of means are good for at best: rounding, and lamps that change colour as they warm.</summary>
    public const double RatioFloor = 1e-4;

    /// <summary>By how much black may be off, in DN: a loose prior.</summary>
    public const double BlackSpreadDn = 5;

    /// <summary>The bend in 1/DN with its standard uncertainty; null where levels or channels do not tell it.</summary>
    /// <param name="channels">The channels fitted with a straight response.</param>
    public static Estimate? Of(IReadOnlyList<ChannelModel> channels)
    {
        int levels = channels[0].Levels.Count;
        ResponseRange[] ranges = [.. channels.Select(ResponseRange.Of)];
        bool[][] usable = [.. channels.Zip(ranges, (c, range) => c.Levels.Select(range.Holds).ToArray())];
        int[] shared = [.. Enumerable.Range(0, levels).Where(l => usable.Count(u => u[l]) > 1)];
        (int Channel, int Level)[] points = [.. shared.SelectMany((level, i) => Enumerable.Range(0, channels.Count).Where(c => usable[c][level]).Select(c => (c, i)))];
        int free = 2 + (channels.Count - 1) + shared.Length;
        if (channels.Count < 2 || points.Length < free)
        {
            return null;
        }

        double[] signals = [.. points.Select(p => ranges[p.Channel].SignalDn(channels[p.Channel].Levels[shared[p.Level]]))];
        double top = signals.Max();
        double[] noises = [.. points.Select((p, i) => double.Hypot(channels[p.Channel].Levels[shared[p.Level]].NoiseOfMeanDn / signals[i], RatioFloor))];
        double[] start = new double[free];
        for (int l = 0; l < shared.Length; l++)
        {
            start[2 + channels.Count - 1 + l] = points.Select((p, i) => (p.Level, Log: Math.Log(signals[i]))).Where(p => p.Level == l).Average(p => p.Log);
        }

        Vector<double> Residuals(Vector<double> at) => Vector<double>.Build.Dense(points.Length + 1, i =>
        {
            if (i == points.Length)
            {
                return at[1] / BlackSpreadDn;
            }

            (int channel, int level) = points[i];
            double linear = new ResponseCurve(at[0] / top).LinearOf(signals[i] - at[1]);
            double own = channel == 0 ? 0 : at[1 + channel];
            return (Math.Log(linear) - own - at[1 + channels.Count + level]) / noises[i];
        });

        double[] scales = [0.1, 1, .. Enumerable.Repeat(1.0, free - 2)];
        if (NonlinearLeastSquares.Fit(Residuals, start, scales) is not { Converged: true, DegreesOfFreedom: > 0 } fit)
        {
            return null;
        }

        // Ratios that scatter more than their noise say so in the uncertainty.
        double spread = Math.Max(1, fit.ResidualDeviation);
        return new Estimate(fit.Parameters[0] / top, spread * Math.Sqrt(fit.UnitCovariance[0, 0]) / top);
    }
}
