using SensorLab.Law;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Findings.Light;
using SensorLab.Measurement.Findings.Target;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Response;

/// <summary>response-nonlinear: the sensor's own response leaves the straight line by more than 1 % below the clip.</summary>
internal sealed class ResponseNonlinearCheck : IIsoCheck
{
    /// <summary>Largest deviation from the straight line, relative: the catalogue's 1 %.</summary>
    private const double LargestDeviation = 0.01;

    /// <summary>Departures that cannot be larger move the bright end by less than a 300th of a stop.</summary>
    private const double SmallestNoted = 0.0025;

    /// <summary>The largest of some twenty deviations over their scatter, and a line that bends after them.</summary>
    private const double LargestOfScatter = 4;

    private const double LowestShare = 0.05;
    private const double HighestShare = 0.95;
    private const int Samples = 31;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        Finding[] bends = [.. Bends(evidence)];
        return bends.Length > 0 ? bends : [.. Beside(evidence), .. OfExposures(evidence)];
    }

    private static IEnumerable<Finding> Bends(IsoEvidence evidence)
    {
        if (evidence.Response.Value is not { IsBent: true } fit)
        {
            yield break;
        }

        double deviation = LargestFromLine(fit.Bend.Value);
        if (deviation > LargestDeviation)
        {
            double missing = 1 - Math.Exp(fit.Bend.Value);
            string whose = fit.BendIsSensors ? "Channels of different sensitivity agree on it" : "A shutter that is off in the same way cannot be ruled out";
            bool isTakenOut = evidence.Channels.Any(c => c.Noise[NoiseParameter.BendPerDn] != 0);
            string compensation = isTakenOut
                ? "Compensated: gain is that of small signals, and the bright end a ratio of exposures."
                : "Gain and the bright end take the response for straight and are off by a part of that; not compensated.";
            yield return FlawFinding.Warning(
                FindingCode.ResponseNonlinear,
                evidence.Iso,
                Math.Abs(missing),
                "relative",
                $"At ISO {evidence.Iso} the response bends: near saturation {Math.Abs(missing):P1} of the signal is {(missing > 0 ? "missing" : "too much")}, up to {deviation:P1} off a straight line. {whose}. {compensation}",
                "Nothing to do at the camera.").In(fit.Points.Select(p => p.Level));
        }
    }

    /// <summary>A response that is straight on the whole and departs from it somewhere: a second converter, a knee below the range's end.</summary>
    private static IEnumerable<Finding> Beside(IsoEvidence evidence)
    {
        if (evidence.Residual is not { } residual || !(residual.Departs || residual.IsOpen))
        {
            return [];
        }

        Estimate largest = residual.Largest;
        double reach = residual.IsOpen ? Math.Max(ReachOf(largest), ReachOf(residual.AtSaturation)) : ReachOf(largest);
        if (reach < SmallestNoted)
        {
            return [];
        }

        if (residual.IsOpen)
        {
            return [FlawFinding.Note(
                FindingCode.ResponseNonlinear,
                evidence.Iso,
                reach,
                "relative",
                $"At ISO {evidence.Iso} channels of different sensitivity disagree on how signals follow the light: the response may depart from a straight line by up to {reach:P1}, or the light's colour changed from level to level. Compensated: the uncertainties of gain, of the bright end and of the shadow end allow for it.",
                "Nothing to do at the camera; under a lamp that has warmed up the light keeps its colour.")];
        }

        if (Math.Abs(largest.Value) > FindingConsequences.LargestDeparture)
        {
            return [FlawFinding.Warning(
                FindingCode.ResponseNonlinear,
                evidence.Iso,
                Math.Abs(largest.Value),
                "relative",
                $"At ISO {evidence.Iso} channels of different sensitivity disagree by {Math.Abs(largest.Value):P0} of the signal on how it follows the light: something else moves it, as in photosites that read less in far more light than fills them. Not compensated: gain, electrons and all that counts stops are left out.",
                "Leave out the longest exposures, those beyond the first two that are white throughout, and characterise the frames again.")];
        }

        Finding finding = FlawFinding.Warning(
            FindingCode.ResponseNonlinear,
            evidence.Iso,
            Math.Abs(largest.Value),
            "relative",
            $"At ISO {evidence.Iso} the response departs from a straight line by {Math.Abs(largest.Value):P1}, and by {reach:P1} at the most, as channels of different sensitivity agree: a second converter takes over, or it flattens from some signal on. Compensated: the bright end and the shadow end are ratios of exposures, and their uncertainties carry what the levels leave open. Gain takes the response for the law that was fitted, and is as uncertain as it departs from it where noise is told.",
            "Nothing to do at the camera.");
        return [Math.Abs(largest.Value) < LargestDeviation ? finding with { Severity = FindingSeverity.Note } : finding];
    }

    private static double ReachOf(Estimate departure) => Math.Abs(departure.Value) + (Propagation.CoverageOfLargest(1) * departure.StandardUncertainty);

    /// <summary>Signals that leave the straight line against nominal exposures: the shutter's or the lamp's doing where that was found, else whose is not known.</summary>
    private static IEnumerable<Finding> OfExposures(IsoEvidence evidence)
    {
        (string Name, Figure Largest)[] off = [.. evidence.Profile.Channels.Where(c => c.LinearityLargestPercent is not null).Select(c => (c.Name, c.LinearityLargestPercent!)).Where(c => c.Item2.Lower95 > 100 * LargestDeviation)];
        double size = off.Select(o => o.Largest.Value!.Value / 100).DefaultIfEmpty(0).Max();
        if (size <= ExplainedByExposures(evidence))
        {
            yield break;
        }

        bool isSensors = evidence.Response.Value is { BendIsSensors: true } && evidence.Residual is not null;
        string[] channels = [.. off.Select(o => o.Name)];
        FormattableString message = isSensors
            ? (FormattableString)$"At ISO {evidence.Iso} signals leave a straight line against nominal exposure by up to {size:P1}. Channels of different sensitivity leave it together: the shutter or the lamp did it, and not the sensor. No figure of light rests on nominal exposures."
            : $"At ISO {evidence.Iso} signals leave a straight line against nominal exposure by up to {size:P1} ({FlawFinding.Listed(channels)}), and nothing tells whether sensor, shutter or lamp did it. Not compensated: gain and the bright end take the response for straight, and their uncertainties allow for as much.";
        yield return (isSensors
            ? FlawFinding.Note(FindingCode.ResponseNonlinear, evidence.Iso, size, "relative", message, "Nothing to do at the camera.")
            : FlawFinding.Warning(FindingCode.ResponseNonlinear, evidence.Iso, size / Math.Log(2), "ev", message, "Shoot the bracket again under a steady lamp, with a shutter whose times are known to be right, or step the light at one exposure time.")).For(channels, evidence.Channels.Count);
    }

    /// <summary>What scattering exposures, light that drifts or flickers, or a field part of which clips before the rest may leave at one level, relative: each is named by itself.</summary>
    private static double ExplainedByExposures(IsoEvidence evidence) => new ExposureInexactCheck().Examine(evidence).Select(f => Math.Pow(2, LargestOfScatter * f.Size ?? 0) - 1)
        .Concat(new LightDriftCheck().Examine(evidence).Select(f => Math.Pow(2, f.Size ?? 0) - 1))
        .Concat(new LightFlickerCheck().Examine(evidence).Select(f => LargestOfScatter * f.Size ?? 0))
        .Concat(new TargetUnevenCheck().Examine(evidence).Select(f => f.Size ?? 0))
        .DefaultIfEmpty(0)
        .Max();

    /// <summary>Largest relative deviation of x·e^(qx) from the line through 5 % to 95 % that weighs relative deviations alike (EMVA 1288 R4).</summary>
    private static double LargestFromLine(double bend)
    {
        double[] exposures = [.. Enumerable.Range(0, Samples).Select(i => LowestShare * Math.Pow(HighestShare / LowestShare, i / (Samples - 1.0)))];
        double[] signals = [.. exposures.Select(x => x * Math.Exp(bend * x))];
        return WeightedLine.Fit([.. exposures.Zip(signals, (x, s) => (x, s, 1 / (s * s)))]) is { } line
            ? exposures.Zip(signals).Max(p => Math.Abs(p.Second - line.At(p.First)) / line.At(p.First))
            : 0;
    }
}
