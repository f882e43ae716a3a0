using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Black;

/// <summary>dark-current: dark signal that grows with exposure time, alike in all channels and evenly over the field.</summary>
internal sealed class DarkCurrentCheck : IIsoCheck
{
    /// <summary>What black may be off.</summary>
    private const double SmallestDn = 0.05;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        double gain = evidence.GainDnPerElectron(evidence.Greens[0]);
        if (DarkRise.Of(evidence) is not { } rise || (rise.LightDn is null && rise.IsTilted) || !double.IsFinite(gain)
            || rise.RiseDn.Value < SmallestDn || rise.RiseDn.Value < Significance.Deviations * rise.RiseDn.StandardUncertainty)
        {
            yield break;
        }

        double perSecond = rise.RiseDn.Value / gain / rise.Seconds;
        double metered = evidence.Levels.Where(l => l.Role == Frames.FrameRole.Metered).Select(l => l.Record.ExposureSeconds).DefaultIfEmpty(double.NaN).Max();
        double extra = Math.Sqrt(perSecond * rise.Longest.Record.ExposureSeconds);
        yield return FlawFinding.Note(
            FindingCode.DarkCurrent,
            evidence.Iso,
            perSecond,
            "electron",
            $"At ISO {evidence.Iso} dark signal grows by {perSecond:F2} electrons a second: after {rise.Longest.Record.ExposureSeconds:G3} s it adds {extra:F2} electrons of noise to the shadows. {BlackWords.Of(evidence, rise)}",
            double.IsNaN(metered) || metered < 1 ? "Nothing to do for short exposures; let the body cool down before long ones." : "Let the body cool down, or use shorter exposures and more light.").In([rise.Longest]);
    }
}
