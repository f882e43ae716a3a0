using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Black;

/// <summary>
/// dark-lit: what long dark frames have more than short ones follows the channels' sensitivities, falls off to one side, or
/// is missing in the optical black pixels; or one dark frame is brighter than the others in the light's colour.
/// </summary>
/// <remarks>
/// Light that reached all dark frames alike shows in the lit ones instead, whose own zero then lies below black: by their
/// channels where it had another colour, else by nominal exposure alone.
/// </remarks>
internal sealed class DarkLitCheck : IIsoCheck
{
    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        // What is left of a glow in the region beside it is tilted, and no light.
        if (DarkRise.Of(evidence) is { } rise && (rise.IsColoured || (rise.IsTilted && evidence.Glow.Value is null)))
        {
            yield return Lit(evidence, rise.IsColoured ? rise.LightDn!.Value.Value : rise.TotalDn, [rise.Longest], BlackWords.Of(evidence, rise));
            yield break;
        }

        if (OpticalBlack.Of(evidence) is { IsLight: true } mask)
        {
            yield return Lit(evidence, mask.LightDn, [evidence.Darks.MaxBy(d => d.Record.ExposureSeconds)!], "Not compensated: black is too high by a part of that, read noise too; their uncertainties allow for it.");
            yield break;
        }

        if (LitDarkFrame.Of(evidence) is { } frame)
        {
            yield return Lit(evidence, frame.LightDn.Value, [frame.Level], $"One of them alone has it: {frame.Frame.File}. Not compensated: black is too high by a part of that, read noise too; their uncertainties allow for it.") with { Frames = [frame.Frame.File] };
            yield break;
        }

        if (evidence.Black.Scatter is { MovesLitFrames: true })
        {
            yield break;
        }

        if (LitBlack.Of(evidence) is { IsOff: true, ShiftDn.Value: < 0 } zero)
        {
            yield return Lit(evidence, -zero.ShiftDn.Value, [.. evidence.Darks], "Not compensated: black is too high by as much, read noise too; their uncertainties allow for it.");
        }
        else if (LitBlack.Of(evidence, againstExposure: true) is { IsOff: true, ShiftDn.Value: < 0 } missing)
        {
            yield return Lit(evidence, -missing.ShiftDn.Value, [.. evidence.Darks], "Or every exposure is short by the same time, which looks alike and does no harm. Not compensated: if it is light, black is too high by as much, read noise too; their uncertainties allow for it.");
        }
    }

    private static Finding Lit(IsoEvidence evidence, double dn, IReadOnlyList<EvidenceLevel> levels, string black) => FlawFinding.Warning(
        FindingCode.DarkLit,
        evidence.Iso,
        dn,
        "dn",
        $"At ISO {evidence.Iso} light came into the dark frames: they are up to {dn:F2} DN brighter than darkness. {black}",
        "Shoot the dark frames again with the body cap on, the viewfinder covered, in a dark room.").In(levels);
}
