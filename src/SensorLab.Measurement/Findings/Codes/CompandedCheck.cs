using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Codes;

/// <summary>raw-companded: code steps that grow with the signal.</summary>
internal sealed class CompandedCheck : IIsoCheck
{
    /// <summary>
    /// Share of a level's temporal variance that wider steps may add: it is taken off as step²/12 of the mean step, which
    /// where two steps meet is a tenth of it off. Ten times what gain may be off.
    /// </summary>
    private const double LargestShare = 0.1;

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
            ? FlawFinding.Warning(FindingCode.RawCompanded, evidence.Iso, steps.WidestDn, "dn", $"{message} That is taken off by the mean step; gain may still be off by a tenth of it.", Remedy)
            : FlawFinding.Note(FindingCode.RawCompanded, evidence.Iso, steps.WidestDn, "dn", $"{message} Each level's own rounding is taken off; where steps are wider than one already in the dark, the uncertainties of black and of the noise there allow for it.", Remedy);
    }

    private static double RoundingShare(EvidenceLevel level) => level.IsDark ? 0 : level.Record.Channels
        .Where(c => c.UsedInFit && c.TemporalParts is { PixelDn2: > 0 })
        .Select(c => ((c.CodeStepDn * c.CodeStepDn) - 1) / 12 / c.TemporalParts!.PixelDn2)
        .DefaultIfEmpty(0)
        .Max();
}
