using SensorLab.Profiles;

namespace SensorLab.Measurement.Flaws;

/// <summary>black-drift: dark frames of one level differ, or the lit frames' own zero lies above the dark ones.</summary>
internal sealed class BlackDriftCheck : IIsoCheck
{
    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        DarkRange range = DarkRange.Of(evidence);
        LitBlack? zero = LitBlack.Of(evidence);
        bool risen = zero is { IsOff: true } && (zero.ShiftDn.Value > 0 || range.IsDrift);
        if (!range.IsDrift && !risen)
        {
            yield break;
        }

        double size = Math.Max(range.IsDrift ? range.RangeDn : 0, risen ? Math.Abs(zero!.ShiftDn.Value) : 0);
        string compensation = risen
            ? "Each level's noise is free of it; black of the lit frames is taken from the dark ones, so the darkest signals are off by as much."
            : "Compensated: black is the mean of the dark frames, its uncertainty holds their scatter.";
        yield return FlawFinding.Note(
            FindingCode.BlackDrift,
            evidence.Iso,
            size,
            "dn",
            $"At ISO {evidence.Iso} black moves by {size:F2} DN between frames. {compensation}",
            "Let the body warm up for ten minutes, and shoot dark frames before and after the bracket.").In(evidence.Darks);
    }
}
