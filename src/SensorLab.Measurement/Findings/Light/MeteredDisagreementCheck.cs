using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Measurement.Findings.Light;

/// <summary>metered-doubtful: metered frames of one reading that differ in light, or readings that no meter step explains.</summary>
internal sealed class MeteredDisagreementCheck : IIsoCheck
{
    /// <summary>Difference within a reading: with two frames each, middle grey is off by a third of what it may.</summary>
    private const double SmallestEv = 0.04;

    /// <summary>What two readings may differ by beyond the meter's step, the field's unevenness under another lamp included.</summary>
    private const double ReadingsToleranceEv = 0.1;

    /// <summary>Share of the brightest frame's light below which a frame has none: its distance is not counted any further.</summary>
    private const double NoLightShare = 0.001;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        EvidenceLevel[] metered = [.. evidence.Levels.Where(l => l.Role == FrameRole.Metered)];
        if (evidence.Grey == GreyMethod.Saturation || metered.Length == 0)
        {
            yield break;
        }

        int green = evidence.Greens[0];
        double black = evidence.BlackDn(green);
        double[] flicker = [.. LitFrames.Of(evidence).Where(l => l.Level.Role == FrameRole.Bracket).Select(l => l.Light.ExcessSquares / l.Light.DegreesOfFreedom)];
        double allowed = Math.Max(SmallestEv, Significance.FlickeringFrames * Math.Sqrt(Math.Max(0, flicker.DefaultIfEmpty(0).Average())) / Math.Log(2));
        EvidenceLevel worst = metered.MaxBy(l => RangeEv(l, green, black))!;
        double range = RangeEv(worst, green, black);
        double noise = Math.Sqrt(worst.VarianceOfFrameMean(green) ?? 0) / evidence.SignalDn(worst, green) / Math.Log(2);
        if (range > allowed && range > 2 * Significance.Deviations * noise)
        {
            yield return Doubt(evidence, range, $"At ISO {evidence.Iso} the metered frames of one reading differ by {range:F2} EV: the light changed after metering.", [worst]);
        }

        double spread = RangeEv([.. metered.Select(l => l.Record.Channels[green].SpotMeanDn!.Value - black)]);
        if (spread > evidence.Options.MeterStepEv + ReadingsToleranceEv + range)
        {
            yield return Doubt(evidence, spread, $"At ISO {evidence.Iso} the meter's readings differ by {spread:F2} EV, more than its step of {evidence.Options.MeterStepEv:F2} EV explains.", metered);
        }
    }

    private static double RangeEv(EvidenceLevel level, int channel, double black) => RangeEv([.. level.Record.Channels[channel].FrameMeansDn.Select(m => m - black)]);

    /// <summary>How far signals lie apart in EV; a frame under the cap counts as one of next to no light.</summary>
    private static double RangeEv(double[] signalsDn)
    {
        double most = signalsDn.Max();
        return most > 0 ? Math.Log2(most / Math.Max(signalsDn.Min(), NoLightShare * most)) : 0;
    }

    private static Finding Doubt(IsoEvidence evidence, double ev, FormattableString what, IReadOnlyList<EvidenceLevel> levels) => FlawFinding.Warning(
        FindingCode.MeteredDoubtful,
        evidence.Iso,
        ev,
        "ev",
        $"{what} Middle grey is the mean of all metered frames and may be off by a part of that; not compensated.",
        "Meter and shoot again under steady light, the spot on the field's middle, and release right after the reading.").In(levels);
}
