using SensorLab.Profiles;

namespace SensorLab.Measurement.Flaws;

/// <summary>raw-companded: code steps that grow with the signal.</summary>
internal sealed class CompandedCheck : IIsoCheck
{
    /// <summary>Share of a level's temporal variance that rounding may add: what gain may be off.</summary>
    private const double LargestShare = 0.01;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        CodeSteps steps = evidence.CodeSteps.Value;
        bool grows = steps.Pattern == StepPattern.Growing;
        if (!grows && !evidence.DeclaresCurve)
        {
            yield break;
        }

        double share = evidence.Levels.Max(RoundingShare);
        FormattableString message = $"At ISO {evidence.Iso} the maker's curve gives bright signals wider steps, up to {steps.WidestDn:F1} DN: rounding makes at most {share:P1} of a level's noise.";
        const string Remedy = "Set the body to lossless or uncompressed raw if it offers that.";
        yield return share > LargestShare
            ? FlawFinding.Warning(FindingCode.RawCompanded, evidence.Iso, steps.WidestDn, "dn", $"{message} Not compensated: gain is too high by about as much.", Remedy)
            : FlawFinding.Note(FindingCode.RawCompanded, evidence.Iso, steps.WidestDn, "dn", message, Remedy);
    }

    private static double RoundingShare(EvidenceLevel level) => level.IsDark ? 0 : level.Record.Channels
        .Where(c => c.UsedInFit && c.TemporalParts is { PixelDn2: > 0 })
        .Select(c => ((c.CodeStepDn * (double)c.CodeStepDn) - 1) / 12 / c.TemporalParts!.PixelDn2)
        .DefaultIfEmpty(0)
        .Max();
}
