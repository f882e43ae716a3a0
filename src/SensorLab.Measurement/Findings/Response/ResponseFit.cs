using MathNet.Numerics.LinearAlgebra;
using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Measurement.Findings.Black;
using SensorLab.Measurement.Fitting;

namespace SensorLab.Measurement.Findings.Response;

/// <summary>How signal follows nominal exposure in one series of bracket levels, taken apart into sensor, shutter and lamp.</summary>
/// <remarks>
/// ln(signal/exposure) of channel c at level l is a_c + e_l + q·x, x the signal as a share of saturation. What a sensor's
/// response lacks hangs on its own signal: channels of different sensitivity tell q from the level's own e_l, which
/// shutter and lamp share out among them. With one channel alone, q is fitted beside a trend over the frames' order.
/// </remarks>
internal sealed class ResponseFit
{
    private const double LowestShare = 0.02;
    private const int FewestLevels = 6;

    /// <summary>Signals this many times a drift of black are free of it: a percent is left.</summary>
    private const double DriftRatio = 100;

    /// <summary>How many times farther than among the dark frames black may move over a whole bracket.</summary>
    private const double BracketDrift = 10;

    private ResponseFit(IReadOnlyList<ResponsePoint> points, Estimate bend, bool bendIsSensors, bool blackMoves)
    {
        BlackReachEv = blackMoves ? Math.Log2(1 + (BracketDrift / DriftRatio)) : 0;
        Points = points;
        Bend = bend;
        BendIsSensors = bendIsSensors;
    }

    /// <summary>The levels in rising exposure.</summary>
    public IReadOnlyList<ResponsePoint> Points { get; }

    /// <summary>q: what ln(response) changes from no light to saturation.</summary>
    public Estimate Bend { get; }

    /// <summary>Whether it is beyond chance that the response bends.</summary>
    public bool IsBent => Math.Abs(Bend.Value) >= Significance.Deviations * Bend.StandardUncertainty;

    /// <summary>Whether channels of different sensitivity show that the bend is the sensor's.</summary>
    public bool BendIsSensors { get; }

    /// <summary>What a black that moves may change in the dimmest level used, in EV; 0 where it rests.</summary>
    public double BlackReachEv { get; }

    /// <summary>Fits the longest series; null where it has fewer than six usable levels.</summary>
    public static ResponseFit? Of(IsoEvidence evidence)
    {
        EvidenceLevel[]? series = evidence.Levels
            .Where(l => l.Role == FrameRole.Bracket)
            .GroupBy(l => (l.Record.LightStep, l.Record.ApertureFNumber))
            .Select(g => g.OrderBy(l => l.Record.ExposureSeconds).ToArray())
            .MaxBy(g => g.Length);
        int[] channels = [.. Enumerable.Range(0, evidence.Channels.Count)];
        if (series is null)
        {
            return null;
        }

        LitBlack? zero = LitBlack.Of(evidence);
        double shift = zero is { IsOff: true } ? zero.ShiftDn.Value : 0;
        double dimmest = DriftRatio * Math.Max(Math.Abs(shift), evidence.Black.Scatter is { MovesLitFrames: true } moves ? moves.RangeDn : 0);
        bool[] usable = [.. series.Select(l => channels.All(c => evidence.IsBetween(l, c, LowestShare, SignalShare.WellBelowClip) && evidence.SignalDn(l, c) > dimmest))];
        EvidenceLevel[] levels = [.. series.Where((_, i) => usable[i])];
        if (levels.Length < FewestLevels)
        {
            return null;
        }

        double[]? orders = Orders(series);
        double[]? sensitivities = evidence.Sensitivities();
        bool several = sensitivities is not null && SignalShare.AreDistinct(sensitivities);
        double[] blacks = [.. channels.Select(c => evidence.UnlitDn(c) + shift)];
        double[][] logs = [.. channels.Select(c => levels.Select(l => Math.Log((l.Record.Channels[c].MeanDn - blacks[c]) / l.Record.ExposureSeconds)).ToArray())];
        double[][] shares = [.. channels.Select(c => levels.Select(l => evidence.ShareOf(l, c)).ToArray())];
        double[][] noises = [.. channels.Select(c => levels.Select(l => Math.Sqrt(evidence.VarianceOfMeanDn2(l, c)) / evidence.SignalDn(l, c)).ToArray())];
        double[] own = [.. levels.Select((_, l) => channels.Average(c => logs[c][l]))];
        double[] ownShares = [.. levels.Select((_, l) => channels.Average(c => shares[c][l]))];
        double[]? time = orders is null ? null : [.. orders.Where((_, i) => usable[i])];
        double[]? trend = evidence.Residual is { ColourDrifts: true } ? [.. levels.Select(l => Math.Log(l.Record.ExposureSeconds))] : null;
        Estimate bend = several ? BendOfChannels(logs, shares, noises, trend) : BendBesideTrend(own, ownShares, time);
        if (dimmest > 0)
        {
            // What black may still be off bends all channels alike: it is an uncertainty, not noise.
            double[][] lifted = [.. channels.Select(c => levels.Select(l => dimmest / DriftRatio / evidence.SignalDn(l, c)).ToArray())];
            double bias = several
                ? BendOfChannels(lifted, shares, noises, trend).Value
                : BendBesideTrend([.. levels.Select((_, l) => channels.Average(c => lifted[c][l]))], ownShares, time).Value;
            bend = bend with { StandardUncertainty = double.Hypot(bend.StandardUncertainty, bias) };
        }

        return new ResponseFit(
            [.. levels.Select((l, i) => new ResponsePoint(
                l,
                own[i] - (bend.Value * ownShares[i]),
                Math.Sqrt(channels.Sum(c => noises[c][i] * noises[c][i])) / channels.Length,
                time?[i]))],
            bend,
            several,
            dimmest > 0);
    }

    /// <summary>Place of each level in the order of capture, from 0 for the series' first frame to 1 for its last; null where frames have no time.</summary>
    private static double[]? Orders(EvidenceLevel[] series)
    {
        DateTimeOffset?[] times = [.. series.SelectMany(l => l.Statistics.Level.Frames.Select(f => f.Raw.Metadata.CaptureTime))];
        if (times.Any(t => t is null) || times.Distinct().Count() < times.Length / 2)
        {
            return null;
        }

        DateTimeOffset?[] rising = [.. times.Order()];
        return [.. series.Select(l => l.Statistics.Level.Frames.Average(f => (double)Array.IndexOf(rising, f.Raw.Metadata.CaptureTime) / (rising.Length - 1)))];
    }

    /// <summary>q from what the channels of one level do not share: both means taken out, of levels and of channels, and where the light changed its colour each channel's course along <paramref name="trend"/>.</summary>
    private static Estimate BendOfChannels(double[][] logs, double[][] shares, double[][] noises, double[]? trend)
    {
        double[][] y = WithoutTrend(WithoutMeans(logs), trend);
        double[][] x = WithoutTrend(WithoutMeans(shares), trend);
        double squares = 0;
        double products = 0;
        double variance = 0;
        double residuals = 0;
        for (int c = 0; c < x.Length; c++)
        {
            for (int l = 0; l < x[c].Length; l++)
            {
                squares += x[c][l] * x[c][l];
                products += x[c][l] * y[c][l];
                variance += Math.Pow(x[c][l] * noises[c][l], 2);
            }
        }

        double bend = products / squares;
        for (int c = 0; c < x.Length; c++)
        {
            residuals += x[c].Zip(y[c]).Sum(p => Math.Pow(p.First * (p.Second - (bend * p.First)), 2));
        }

        return new Estimate(bend, Math.Sqrt(Math.Max(variance, residuals)) / squares);
    }

    private static double[][] WithoutMeans(double[][] values)
    {
        double grand = values.Average(v => v.Average());
        double[] levels = [.. values[0].Select((_, l) => values.Average(v => v[l]))];
        return [.. values.Select(v =>
        {
            double own = v.Average();
            return v.Select((value, l) => value - own - levels[l] + grand).ToArray();
        })];
    }

    private static double[][] WithoutTrend(double[][] values, double[]? trend)
    {
        return trend is null ? values : [.. values.Select(v =>
            WeightedLine.Fit([.. trend.Zip(v, (x, y) => (x, y, 1.0))]) is { } line ? v.Select((value, l) => value - line.At(trend[l])).ToArray() : v)];
    }

    private static Estimate BendBesideTrend(double[] own, double[] shares, double[]? time)
    {
        int columns = time is null ? 2 : 3;
        Matrix<double> design = Matrix<double>.Build.Dense(own.Length, columns, (row, column) => column switch
        {
            0 => 1,
            1 => shares[row],
            _ => time![row],
        });
        return LinearLeastSquares.Fit(design, Vector<double>.Build.Dense(own)) is { } fit
            ? new Estimate(fit.Parameters[1], fit.StandardUncertainty(1))
            : new Estimate(0, double.PositiveInfinity);
    }
}

/// <summary>A level of a response fit.</summary>
/// <param name="Level">The level.</param>
/// <param name="LogExposure">ln of signal over nominal exposure, the sensor's bend taken out, up to a constant.</param>
/// <param name="Uncertainty">Its standard uncertainty by temporal noise.</param>
/// <param name="Order">Place in the order of capture, from 0 to 1; null where frames have no time.</param>
internal sealed record ResponsePoint(EvidenceLevel Level, double LogExposure, double Uncertainty, double? Order);
