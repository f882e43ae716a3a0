using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Response;

/// <summary>response-nonlinear, above the range that the fits use: the response flattens or steepens between 70 % of saturation and the clip.</summary>
/// <remarks>
/// A bright channel is held against the others of its level, which are still below 70 %: no shutter or lamp misleads
/// them. Where all are alike, or there is one alone, nominal exposure stands in, with what it scatters below. A level
/// that the clip has begun to cut is held against the light that its mean stands for (<see cref="LightAtClip"/>): a knee
/// that begins within the last percents shows by pixels that should all have clipped and have not.
/// </remarks>
internal sealed class ResponseKneeCheck : IIsoCheck
{
    /// <summary>What the bright end may be off: the catalogue's 1 %.</summary>
    private const double SmallestDeviation = 0.01;

    /// <summary>Shutters are off by a few percent: against nominal exposures less than this is noted, and no warning.</summary>
    private const double SmallestWarnedAgainstExposure = 0.03;

    private const double LowestShare = 0.02;

    /// <summary>Higher, a mean tells hardly anything of the light.</summary>
    private const double HighestShare = 0.998;

    /// <summary>Up to here wells of different depth take so little that the mean is off by less than 10⁻⁴; above, a knee has to be larger.</summary>
    private const double SharpShare = 0.97;

    private const double SmallestNearEnd = 0.03;

    /// <summary>How well is known what the clip has taken: pixels' spread is no better known so near their wells' end.</summary>
    private const double TakenUncertainty = 0.25;

    /// <summary>Nominal exposures are compared with those of the upper levels: a bend that is hardly known matters little so near.</summary>
    private const double LowestShareAgainstExposure = 0.25;

    private const int FewestPoints = 3;

    /// <summary>Above, pixels that reach their well take variance from a level.</summary>
    private const double HighestSlopeShare = 0.95;

    /// <summary>Of the variance, what an excess of the fit's own may hide.</summary>
    private const double SmallestSlopeMissing = 0.05;

    /// <summary>A third of what is looked for against exposure: slope is missing long before signal is.</summary>
    private const double SmallestBySlope = 0.003;

    /// <summary>What may be missing at the clip over what the last level shows.</summary>
    private const double KneeToEnd = 2;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        if (evidence.Response.Value is not { } fit)
        {
            yield break;
        }

        int[] channels = [.. Enumerable.Range(0, evidence.Channels.Count)];
        (EvidenceLevel Level, double Off)[] off =
        [
            .. from level in evidence.Levels
               where level.Role == FrameRole.Bracket
               from channel in channels
               where evidence.ShareOf(level, channel) is >= FitRange.HighestShare and <= HighestShare
               let found = Against(evidence, fit, level, channel)
               where found is not null
               select (level, found.Value),
            .. evidence.Residual is null ? BySlope(evidence) : [],
        ];
        if (off.Length == 0)
        {
            yield break;
        }

        double size = off.MaxBy(o => Math.Abs(o.Off)).Off;
        bool isMeasured = evidence.Residual is not null;
        string compensation = isMeasured
            ? "Compensated as far as exposures show it, and the bright end's uncertainty carries the rest."
            : "Not compensated: the bright end takes the response for the one below, and its uncertainty allows for twice as much.";
        FormattableString message = $"At ISO {evidence.Iso} the response {(size < 0 ? "flattens" : "steepens")} near saturation: from {FitRange.HighestShare:P0} of it on, up to {Math.Abs(size):P1} of the signal is {(size < 0 ? "missing" : "too much")}. {compensation}";
        const string Remedy = "Nothing to do at the camera; trust the points of the highlights more than the curve.";
        double stops = KneeToEnd * Math.Abs(size) / Math.Log(2);
        Finding finding = isMeasured
            ? FlawFinding.Warning(FindingCode.ResponseNonlinear, evidence.Iso, Math.Abs(size), "relative", message, Remedy)
            : FlawFinding.Warning(FindingCode.ResponseNonlinear, evidence.Iso, stops, "ev", message, Remedy);

        // What a shutter may do by itself is noted, and allowed for.
        yield return (Math.Abs(size) < SmallestWarnedAgainstExposure && !isMeasured ? finding with { Severity = FindingSeverity.Note } : finding).In(off.Select(o => o.Level).Distinct());
    }

    /// <summary>
    /// How far bright levels of one channel are off what the response below gives, relative, by the slope that their shot
    /// noise was recorded with: it is missing from the fit's end on in proportion, as a smooth knee has it.
    /// </summary>
    private static IEnumerable<(EvidenceLevel Level, double Off)> BySlope(IsoEvidence evidence) =>
        from level in evidence.Levels
        from channel in Enumerable.Range(0, evidence.Channels.Count)
        let model = evidence.Channels[channel]
        where level.Role == FrameRole.Bracket && model.PhotonTransfer is not null && level.Record.Channels[channel].TemporalParts is not null
            && evidence.IsBetween(level, channel, FitRange.HighestShare, HighestSlopeShare)
        let line = model.PhotonTransfer
        let expected = line.GainDnPerElectron * model.Noise.Response.ShotSignalOf(evidence.SignalDn(level, channel))
        let parts = level.Record.Channels[channel].TemporalParts
        let square = (parts.PixelDn2 - line.InterceptDn2) / expected
        let uncertainty = double.Hypot(parts.PixelUncertaintyDn2 / expected, Math.Sqrt(line.GainVariance) / line.GainDnPerElectron)
        where square > 0 && 1 - square > Math.Max(SmallestSlopeMissing, Significance.Deviations * uncertainty)
        let off = (1 - (1 / Math.Sqrt(square))) * Math.Log(evidence.ShareOf(level, channel) / FitRange.HighestShare) / 2
        where Math.Abs(off) > SmallestBySlope
        select (level, off);

    /// <summary>How far a bright channel is off what the response below gives, relative; null where that may be chance.</summary>
    private static double? Against(IsoEvidence evidence, ResponseFit fit, EvidenceLevel level, int channel)
    {
        int[] dimmer = [.. Enumerable.Range(0, evidence.Channels.Count).Where(c => evidence.IsBetween(level, c, LowestShare, FitRange.HighestShare))];
        bool byChannels = fit.BendIsSensors && dimmer.Length > 0;
        double Reference(EvidenceLevel at) => byChannels ? dimmer.Average(c => Straight(evidence, fit, at, c)) : Math.Log(at.Record.ExposureSeconds);
        EvidenceLevel[] points = [.. fit.Points.Select(p => p.Level).Where(p => byChannels || evidence.ShareOf(p, channel) > LowestShareAgainstExposure)];
        if (points.Length < FewestPoints || LightAtClip.ShareOf(evidence, level, channel, points.MaxBy(p => evidence.ShareOf(p, channel))!) is not { } light)
        {
            return null;
        }

        double[] below = [.. points.Select(p => Straight(evidence, fit, p, channel) - Reference(p))];
        double mean = below.Average();
        double scatter = Math.Sqrt(below.Sum(b => (b - mean) * (b - mean)) / (below.Length - 1));
        double lever = evidence.ShareOf(level, channel) - (byChannels ? dimmer.Average(c => evidence.ShareOf(level, c)) : points.Average(p => evidence.ShareOf(p, channel)));
        double taken = Math.Log(light / evidence.ShareOf(level, channel));
        double off = Straight(evidence, fit, level, channel) + taken - Reference(level) - mean;
        double uncertainty = double.Hypot(scatter * Math.Sqrt(1 + (1.0 / below.Length)), double.Hypot(lever * fit.Bend.StandardUncertainty, TakenUncertainty * taken));
        double smallest = evidence.ShareOf(level, channel) < SharpShare ? SmallestDeviation : SmallestNearEnd;
        return Math.Abs(off) > smallest && Math.Abs(off) > Significance.Deviations * uncertainty ? off : null;
    }

    /// <summary>ln of a signal, the bend of the range below taken out.</summary>
    private static double Straight(IsoEvidence evidence, ResponseFit fit, EvidenceLevel level, int channel) =>
        Math.Log(evidence.SignalDn(level, channel)) - (fit.Bend.Value * evidence.ShareOf(level, channel));
}
