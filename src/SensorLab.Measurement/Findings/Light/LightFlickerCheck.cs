using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Light;

/// <summary>light-flicker: the frames of a level differ in light by more than their noise explains.</summary>
internal sealed class LightFlickerCheck : IIsoCheck
{
    /// <summary>A relative standard deviation below which no figure moves by a tenth of what it may: 0.3 % is 0.004 EV.</summary>
    private const double SmallestRelative = 0.003;

    /// <summary>The same for one bracket level among many steady ones; metered frames have a finding of their own.</summary>
    private const double SmallestAlone = 0.01;

    /// <summary>Moved levels from which on it is the lamp's habit: this many, and this share of all.</summary>
    private const int FewestCommon = 3;

    private const double CommonShare = 0.2;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        (EvidenceLevel Level, FrameLight Light)[] levels = [.. LitFrames.Of(evidence)];
        if (levels.Length == 0)
        {
            yield break;
        }

        double degrees = levels.Sum(l => l.Light.DegreesOfFreedom);
        double relative = Math.Sqrt(Math.Max(0, levels.Sum(l => l.Light.ExcessSquares)) / degrees);
        var moved = levels.Where(l => l.Light.Relative > SmallestRelative && l.Light.Deviations > Significance.Deviations).ToArray();
        bool common = relative > SmallestRelative && moved.Length >= Math.Max(FewestCommon, CommonShare * levels.Length);
        var alone = moved.Where(l => l.Light.Relative > SmallestAlone && l.Level.Role == FrameRole.Bracket).ToArray();
        if (common || alone.Length > 0)
        {
            double size = common ? relative : alone.Max(l => l.Light.Relative);
            yield return FlawFinding.Warning(
                FindingCode.LightFlicker,
                evidence.Iso,
                size,
                "relative",
                $"At ISO {evidence.Iso} the light varied by {size:P1} between frames of the same exposure, at {moved.Length} exposures of {levels.Length}. Compensated: frames were scaled to the same light before they were compared.",
                "Use exposures of 1/50 s and longer, or a lamp on direct current or daylight.").In(moved.Select(l => l.Level));
        }
    }
}
