using SensorLab.Law;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Findings.Response;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Light;

/// <summary>light-drift: the light changed steadily from the first frame of the bracket to the last, or its colour did.</summary>
/// <remarks>
/// The trend must show in both halves of the levels, so that a shutter that is off at its fastest times only, or a
/// response that bends near saturation, is not taken for it. Where channels of different sensitivity say that the response
/// bends, or departs from its law, it must be more than that may make of it.
/// </remarks>
internal sealed class LightDriftCheck : IIsoCheck
{
    /// <summary>1/20 EV over a bracket: signal is its own exposure, so that less moves no figure but the linearity error.</summary>
    private const double SmallestEv = 0.05;

    /// <summary>Share of the whole trend that either half of the levels must show.</summary>
    private const double HalfShare = 0.4;

    /// <summary>A hundredth of a stop between two channels: their balance is no better known.</summary>
    private const double SmallestColourEv = 0.01;

    public IEnumerable<Finding> Examine(IsoEvidence evidence) => [.. OfLight(evidence), .. OfColour(evidence)];

    /// <summary>Channels that move against each other as exposures grow, which no response that they share makes them do, and no black that moves.</summary>
    private static IEnumerable<Finding> OfColour(IsoEvidence evidence)
    {
        if (evidence.Residual is { ColourDrifts: true, ColourTrend: var trend } && trend / Math.Log(2) is var ev && ev > SmallestColourEv + (evidence.Response.Value?.BlackReachEv ?? 0))
        {
            yield return FlawFinding.Note(
                FindingCode.LightDrift,
                evidence.Iso,
                ev,
                "ev",
                $"At ISO {evidence.Iso} the light changed its colour while the bracket was shot, or one channel answers to light in its own way: from the shortest exposures to the longest channels moved against each other by {ev:F2} EV. Compensated: what is told by comparing channels allows for it.",
                "Nothing to shoot again. Lamps change their colour while they warm up, and daylight does by the hour.");
        }
    }

    private static IEnumerable<Finding> OfLight(IsoEvidence evidence)
    {
        if (evidence.Response.Value is not { } fit || fit.Points.Any(p => p.Order is null))
        {
            yield break;
        }

        ResponsePoint[] points = [.. fit.Points.OrderBy(p => p.Order)];
        (double slope, double uncertainty) = Slope(points);
        double ev = slope / Math.Log(2);
        double first = Slope(points[..((points.Length + 1) / 2)]).Slope / slope;
        double second = Slope(points[(points.Length / 2)..]).Slope / slope;
        // A departure from the first of these levels to the last is a trend so many times as large over the whole bracket.
        double part = points[^1].Order!.Value - points[0].Order!.Value;
        double reach = ((Significance.ClearOfFit * fit.Bend.StandardUncertainty) + (Departure(evidence) / part) + Bend(fit)) / Math.Log(2);
        if (Math.Abs(ev) > SmallestEv + reach + fit.BlackReachEv && Math.Abs(slope) > Significance.Deviations * uncertainty && first > HalfShare && second > HalfShare)
        {
            string way = ev > 0 ? "brighter" : "dimmer";
            string doubt = ExposureDeparture.IsToldByChannels(evidence.Profile) ? string.Empty : " A response that is not straight would show the same, and no channels of different sensitivity tell the two apart: gain and electrons are as uncertain as that.";
            yield return FlawFinding.Warning(
                FindingCode.LightDrift,
                evidence.Iso,
                Math.Abs(ev),
                "ev",
                $"At ISO {evidence.Iso} the light grew {way} by {Math.Abs(ev):F2} EV from the first frame of the bracket to the last. Gain, noise and latitude go by each frame's own signal; the linearity error is off by as much.{doubt}",
                "Let the lamp warm up for half an hour, keep daylight out, and shoot the bracket without breaks.").In(points.Select(p => p.Level));
        }
    }

    /// <summary>What a response that departs from its law, and channels that do not go together, may make of the levels' exposures, as a natural logarithm; 0 where all keep to it.</summary>
    private static double Departure(IsoEvidence evidence)
    {
        if (evidence.Residual is not { } residual)
        {
            return 0;
        }

        Estimate largest = residual.Departs || residual.IsOpen ? residual.Largest : default;
        return Math.Abs(largest.Value) + (Significance.ClearOfFit * (largest.StandardUncertainty + residual.ColourScatter)) + (residual.ColourDrifts ? residual.ColourTrend : 0);
    }

    /// <summary>What a bend that is the sensor's may make of them where it follows another law than the fit's: a cubic one of the same size at saturation makes as much as it is.</summary>
    private static double Bend(ResponseFit fit) => fit is { BendIsSensors: true, IsBent: true } ? Math.Abs(fit.Bend.Value) : 0;

    private static (double Slope, double Uncertainty) Slope(ResponsePoint[] points)
    {
        double x = points.Average(p => p.Order!.Value);
        double y = points.Average(p => p.LogExposure);
        double squares = points.Sum(p => Math.Pow(p.Order!.Value - x, 2));
        double slope = points.Sum(p => (p.Order!.Value - x) * (p.LogExposure - y)) / squares;
        double residuals = points.Sum(p => Math.Pow(p.LogExposure - y - (slope * (p.Order!.Value - x)), 2));
        return (slope, Math.Sqrt(residuals / Math.Max(1, points.Length - 2) / squares));
    }
}
