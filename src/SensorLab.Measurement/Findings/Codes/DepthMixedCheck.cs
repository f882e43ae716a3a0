using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Codes;

/// <summary>depth-mixed: levels of one ISO with different code steps, whatever their signal.</summary>
internal sealed class DepthMixedCheck : IIsoCheck
{
    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        if (evidence.CodeSteps.Value is { Pattern: StepPattern.Mixed } steps && !evidence.DeclaresCurve)
        {
            IReadOnlyList<EvidenceLevel> wide = steps.WideLevels;
            IEnumerable<string> fine = evidence.Levels.Except(wide).SelectMany(l => l.Files);
            double bits = Math.Log2(steps.WidestDn);
            yield return FlawFinding.Refusal(
                FindingCode.DepthMixed,
                evidence.Iso,
                Math.Round(bits),
                "count",
                $"At ISO {evidence.Iso} some frames were recorded with {bits:F0} bits fewer than others: two recording modes in one ISO. The finer ones: {string.Join(", ", fine.Take(3))} and {Math.Max(0, fine.Count() - 3)} more.",
                "Shoot all frames of an ISO with one drive mode and one shutter, or name the modes in frames.csv and characterise one at a time.").In(wide);
        }
    }
}
