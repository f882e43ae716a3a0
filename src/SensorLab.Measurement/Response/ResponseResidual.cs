using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Model;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Response;

/// <summary>
/// What the response does beside the law that was fitted (a knee near saturation, a second converter from some signal on),
/// from channels of different sensitivity that share each level's light.
/// </summary>
/// <remarks>
/// ln x_cl = a_c + e_l + D(S_cl): x the signal that the fitted law makes straight, a_c the channel's sensitivity, e_l the
/// level's light whatever shutter and lamp did, D the law's own fault, the same for all channels. Nothing is said of the
/// shape of D but that it is a random walk over the signal (steps, as of a second converter), one whose slope is a random
/// walk, or a knee from some share of saturation on, each of any of some scales. Most responses have none; how likely
/// each is, the levels tell (Bayes' theorem, the marginal likelihood of each), and what they leave open is uncertain.
/// A black that is off by the same in all channels is allowed for, and so is a light that changes its colour
/// (<see cref="LightColour"/>): channels then differ by what no response makes of them.
/// </remarks>
internal sealed class ResponseResidual
{
    /// <summary>Share of saturation below which black decides what a signal is.</summary>
    private const double LowestShare = 0.03;

    /// <summary>Share of saturation above which pixels that clip, or whose well is smaller, have a part in the mean.</summary>
    private const double HighestShare = 0.95;

    /// <summary>Share of saturation from which a pixel may be at its end.</summary>
    private const double EndShare = 0.98;

    /// <summary>Share of a level's due variance above which hardly a pixel clips.</summary>
    private const double WholeNoise = 0.95;

    private const int FewestLevels = 5;

    /// <summary>Prior variance of sensitivities and lights, whose rough values are taken off before.</summary>
    private const double LooseVariance = 1;

    /// <summary>
    /// How likely a response has no such fault at all, before levels are asked. Levels that tell of one outdo it by far; what
    /// no level has seen, between the brightest one and the clip, is an assumption of the profile and no part of an
    /// uncertainty, which it would else be the most of.
    /// </summary>
    private const double NoneShare = 1 - 1e-4;

    /// <summary>The scales that a walk may have over the whole range, each as likely as the others: from what ratios can just tell to a response that nobody would sell.</summary>
    private static readonly double[] Scales = [0.001, 0.003, 0.01, 0.03, 0.1];

    /// <summary>The scales of a slope's walk: one that sets in over the last third makes a tenth of its scale.</summary>
    private static readonly double[] SlopeScales = [0.01, 0.03, 0.1, 0.3, 1];

    /// <summary>Likelihood below which a fault adds nothing to any figure: of the largest, a ten-thousandth of a stop.</summary>
    private const double SmallestWeight = 1e-6;

    /// <summary>How likely a response may still be its law, where it is said that it is not: of ten thousand before levels were asked, a hundredth is left.</summary>
    private const double SmallestNoneLikelihood = 0.01;

    /// <summary>Likelihood from which lights that change their colour need not be tried: they could only explain what is no fault in a steady one.</summary>
    private const double SureNoneLikelihood = 0.99;

    /// <summary>Likelihood from which a light is said to change its colour.</summary>
    private const double SureDriftLikelihood = 0.99;

    /// <summary>What a knee may lack at the end of the range.</summary>
    private static readonly double[] KneeScales = [0.01, 0.03, 0.1];

    /// <summary>Where a knee may begin, as a share of saturation.</summary>
    private static readonly double[] KneeShares = [0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95];

    private readonly double[] _shares;
    private readonly double _fullDn;
    private readonly (ResponseFault Fault, double Weight)[] _faults;

    private ResponseResidual(double[] shares, double fullDn, ResponseHypothesis[] hypotheses)
    {
        _shares = shares;
        _fullDn = fullDn;
        double best = hypotheses.Max(h => h.Fault.LogLikelihood);
        double[] weights = [.. hypotheses.Select(h => h.Prior * Math.Exp(h.Fault.LogLikelihood - best))];
        double sum = weights.Sum();
        _faults = [.. hypotheses.Zip(weights, (h, w) => (h.Fault, w / sum))];
        NoneLikelihood = hypotheses.Zip(weights).Where(h => h.First.IsNone).Sum(h => h.Second) / sum;
        ColourDrifts = hypotheses.Zip(weights).Where(h => h.First.Light.Drift > 0).Sum(h => h.Second) > SureDriftLikelihood * sum;
        ColourScatter = hypotheses.Zip(weights).Sum(h => h.First.Light.Scatter * h.Second) / sum;
    }

    /// <summary>Looks for it; null where channels or levels do not tell: the response is then taken for what was fitted.</summary>
    /// <param name="channels">The channels of an ISO, fitted.</param>
    public static ResponseResidual? Of(IReadOnlyList<ChannelModel> channels)
    {
        // The second green is as sensitive as the first: it tells nothing more.
        ChannelModel[] told = [.. channels.Where(c => c.Name != ChannelName.SecondGreen)];
        ResponseRange[] ranges = [.. told.Select(ResponseRange.Of)];
        double full = ranges.Max(r => r.FullDn);
        (int Channel, int Level)[] points =
        [
            .. from level in Enumerable.Range(0, told[0].Levels.Count)
               let usable = Enumerable.Range(0, told.Length).Where(c => IsUsable(told[c], told[c].Levels[level], ranges[c], full)).ToArray()
               where usable.Length > 1
               from channel in usable
               select (channel, level),
        ];
        double[] signals = [.. points.Select(p => ranges[p.Channel].SignalDn(told[p.Channel].Levels[p.Level]))];
        double[] logs = [.. points.Select((p, i) => Math.Log(told[p.Channel].Noise.Response.LinearOf(signals[i])))];
        int[] levels = [.. points.Select(p => p.Level).Distinct()];
        if (levels.Length < FewestLevels || !double.IsFinite(full) || !logs.All(double.IsFinite))
        {
            return null;
        }

        double[] observed = WithoutMeans(points, logs, out double apart);
        if (apart < -Math.Log(SignalShare.DistinctSensitivity))
        {
            return null;
        }

        double[] shares = [.. signals.Select(s => s / full)];
        double[] noises = [.. points.Select((p, i) => double.Hypot(told[p.Channel].Levels[p.Level].NoiseOfMeanDn / signals[i], ChannelRatioBend.RatioFloor))];
        Matrix<double> known = Matrix<double>.Build.Dense(points.Length, points.Length, (i, j) =>
            (i == j ? noises[i] * noises[i] : 0)
            + (points[i].Channel == points[j].Channel ? LooseVariance : 0)
            + (points[i].Level == points[j].Level ? LooseVariance : 0)
            + (ChannelRatioBend.BlackSpreadDn * ChannelRatioBend.BlackSpreadDn / (signals[i] * signals[j])));
        LitPoint[] lit = [.. points.Select(p => LitPoint.Of(p.Channel, p.Level, told[p.Channel].Levels[p.Level]))];
        ResponseHypothesis[] Under(LightColour light) => Hypotheses(light, new ResponseMisfits(shares, Vector<double>.Build.Dense(observed), known + light.Covariance(lit)));
        double trend = LightColour.Trend(lit, logs);
        ResponseHypothesis[] hypotheses = Under(LightColour.Steady);
        var steady = new ResponseResidual(shares, full, hypotheses) { ColourTrend = trend, ChannelsDisagree = false };
        if (steady.NoneLikelihood > SureNoneLikelihood)
        {
            return steady;
        }

        IEnumerable<LightColour> changing = trend < LightColour.LargestTrend ? LightColour.Changing : [];
        return new ResponseResidual(shares, full, [.. hypotheses, .. changing.SelectMany(Under)]) { ColourTrend = trend, ChannelsDisagree = true };
    }

    /// <summary>How likely it is that the response has no such fault.</summary>
    public double NoneLikelihood { get; }

    /// <summary>Whether channels leave what a response by its law shows under a light that keeps its colour.</summary>
    public required bool ChannelsDisagree { get; init; }

    /// <summary>Whether it is beyond doubt that the light changed its colour steadily over the bracket.</summary>
    public bool ColourDrifts { get; }

    /// <summary>By how much the light's colour differs from level to level, as a natural logarithm.</summary>
    public double ColourScatter { get; }

    /// <summary>What channels gained on each other from the shortest exposures to the longest, at the most, as a natural logarithm.</summary>
    public required double ColourTrend { get; init; }

    /// <summary>Whether it is beyond doubt that the response has one.</summary>
    public bool Departs => NoneLikelihood < SmallestNoneLikelihood;

    /// <summary>Whether levels leave it open: of a light whose colour changes from level to level they would show as much.</summary>
    public bool IsOpen => !Departs && NoneLikelihood < SureNoneLikelihood;

    /// <summary>The largest departure from the fitted law over the signals used, from the dimmest one on, as a natural logarithm of light.</summary>
    public Estimate Largest => Departures(_shares).MaxBy(d => Math.Abs(d.Value));

    /// <summary>The departure at saturation, above the brightest signal used: a knee that begins there shows in nothing below.</summary>
    public Estimate AtSaturation => Between(0, _fullDn);

    /// <summary>How far the response may be off its law where it is farthest among the signals that the noise is fitted to: the root mean square there, as a natural logarithm of light; 0 without such signals.</summary>
    public double ReachInFit => Departures(_shares.Where(s => s <= FitRange.HighestShare)).Select(d => double.Hypot(d.Value, d.StandardUncertainty)).DefaultIfEmpty(0).Max();

    /// <summary>By what share of the light, as a natural logarithm, a signal is farther above another one than the fitted law says.</summary>
    /// <param name="fromDn">The lower signal above black in DN; the law holds below the dimmest level used.</param>
    /// <param name="toDn">The higher one.</param>
    /// <returns>Mean and standard uncertainty over all faults that the response may have.</returns>
    public Estimate Between(double fromDn, double toDn)
    {
        double low = Math.Max(fromDn / _fullDn, _shares.Min());
        double high = Math.Max(toDn / _fullDn, low);
        double mean = 0;
        double squares = 0;
        foreach ((ResponseFault fault, double weight) in _faults.Where(f => f.Weight >= SmallestWeight))
        {
            (double own, double variance) = fault.Between(low, high);
            mean -= weight * own;
            squares += weight * ((own * own) + variance);
        }

        return new Estimate(mean, Math.Sqrt(Math.Max(0, squares - (mean * mean))));
    }

    /// <summary>What a response may do under one light, nothing first.</summary>
    private static ResponseHypothesis[] Hypotheses(LightColour light, ResponseMisfits misfits)
    {
        ResponseFault[] faults =
        [
            .. Walks().Select(covariance => ResponseFault.OfCovariance(covariance, misfits)),
            .. Knees(misfits.Shares.Max()).Select(shape => ResponseFault.OfShape(shape, misfits)),
        ];
        return
        [
            new(ResponseFault.OfShape(_ => 0, misfits), light.Prior * NoneShare, light, IsNone: true),
            .. faults.Select(fault => new ResponseHypothesis(fault, light.Prior * (1 - NoneShare) / faults.Length, light, IsNone: false)),
        ];
    }

    /// <summary>D at signals, as shares of saturation.</summary>
    private IEnumerable<Estimate> Departures(IEnumerable<double> shares) => shares.Select(s => Between(0, s * _fullDn));

    /// <summary>Covariances of D at two places: of random walks, and of walks whose slope is one.</summary>
    private static IEnumerable<Func<double, double, double>> Walks() =>
    [
        .. Scales.Select(scale => (Func<double, double, double>)((a, b) => scale * scale * Math.Min(a, b))),
        .. SlopeScales.Select(scale => (Func<double, double, double>)((a, b) =>
            scale * scale * Math.Min(a, b) * Math.Min(a, b) * ((3 * Math.Max(a, b)) - Math.Min(a, b)) / 6)),
    ];

    /// <summary>D of knees, sharp and smooth, as one standard deviation of their size makes it; they begin below the brightest level: of others nothing is known but that they are rare.</summary>
    private static IEnumerable<Func<double, double>> Knees(double brightest) =>
        from scale in KneeScales
        from start in KneeShares
        where start < brightest
        from power in new[] { 1, 2, 3 }
        select (Func<double, double>)(share => scale * Math.Pow(Beyond(share, start), power));

    private static double Beyond(double share, double start) => Math.Max(0, share - start) / (1 - start);

    /// <summary>Logarithms less their channel's and their level's rough means.</summary>
    private static double[] WithoutMeans((int Channel, int Level)[] points, double[] logs, out double apart)
    {
        double[] left = [.. logs];
        Dictionary<int, double> channels = [];
        foreach (IGrouping<int, int> level in Enumerable.Range(0, logs.Length).GroupBy(i => points[i].Level))
        {
            double mean = level.Average(i => logs[i]);
            foreach (int i in level)
            {
                left[i] -= mean;
            }
        }

        foreach (IGrouping<int, int> channel in Enumerable.Range(0, logs.Length).GroupBy(i => points[i].Channel))
        {
            channels[channel.Key] = channel.Average(i => left[i]);
            foreach (int i in channel.ToArray())
            {
                left[i] -= channels[channel.Key];
            }
        }

        apart = channels.Values.Max() - channels.Values.Min();
        return left;
    }

    private static bool IsUsable(ChannelModel channel, ObservedLevel level, ResponseRange range, double full) =>
        !level.IsDark && level.Channel.ClippedFraction <= 0 && range.SignalDn(level) > LowestShare * full && range.SignalDn(level) < HighestShare * range.FullDn
        && (!ReachesEnd(level, range) || (channel.Levels.Any(l => l.IsDark && ReachesEnd(l, range)) && HasItsNoise(channel, level, range)));

    /// <summary>Whether a pixel stands at the end: on an uneven field the brightest ones clip, and take from the mean.</summary>
    private static bool ReachesEnd(ObservedLevel level, ResponseRange range) => level.Channel.HighestCodeDn - range.BlackDn > EndShare * range.FullDn;

    /// <summary>Where a hot pixel stands at the end in the dark already, a level's noise tells whether others do.</summary>
    private static bool HasItsNoise(ChannelModel channel, ObservedLevel level, ResponseRange range) =>
        channel.PhotonTransfer is { } line && level.Channel.TemporalParts is { } parts
        && parts.PixelDn2 > WholeNoise * line.VarianceAt(channel.Noise.Response.ShotSignalOf(range.SignalDn(level)));
}

/// <summary>What a response may do beside its law, under a light whose colour may change.</summary>
/// <param name="Fault">What the response does.</param>
/// <param name="Prior">How likely both are before levels are asked.</param>
/// <param name="Light">The light.</param>
/// <param name="IsNone">Whether the response does nothing.</param>
internal sealed record ResponseHypothesis(ResponseFault Fault, double Prior, LightColour Light, bool IsNone);
