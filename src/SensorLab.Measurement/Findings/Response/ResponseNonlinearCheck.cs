using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Response;

/// <summary>response-nonlinear: the sensor's own response leaves the straight line by more than 1 % below the clip.</summary>
internal sealed class ResponseNonlinearCheck : IIsoCheck
{
    /// <summary>Largest deviation from the straight line, relative: the catalogue's 1 %.</summary>
    private const double LargestDeviation = 0.01;

    private const double LowestShare = 0.05;
    private const double HighestShare = 0.95;
    private const int Samples = 31;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        if (evidence.Response.Value is not { } fit || Math.Abs(fit.Bend.Value) < Significance.Deviations * fit.Bend.StandardUncertainty)
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

    /// <summary>Largest relative deviation of x·e^(qx) from the line through 5 % to 95 % that weighs relative deviations alike (EMVA 1288 R4).</summary>
    private static double LargestFromLine(double bend)
    {
        double[] exposures = [.. Enumerable.Range(0, Samples).Select(i => LowestShare * Math.Pow(HighestShare / LowestShare, i / (Samples - 1.0)))];
        double[] signals = [.. exposures.Select(x => x * Math.Exp(bend * x))];
        double w = signals.Sum(s => 1 / (s * s));
        double x = exposures.Zip(signals).Sum(p => p.First / (p.Second * p.Second));
        double y = signals.Sum(s => 1 / s);
        double xx = exposures.Zip(signals).Sum(p => p.First * p.First / (p.Second * p.Second));
        double xy = exposures.Zip(signals).Sum(p => p.First / p.Second);
        double slope = ((w * xy) - (x * y)) / ((w * xx) - (x * x));
        double offset = (y - (slope * x)) / w;
        return exposures.Zip(signals).Max(p => Math.Abs(p.Second - offset - (slope * p.First)) / (offset + (slope * p.First)));
    }
}
