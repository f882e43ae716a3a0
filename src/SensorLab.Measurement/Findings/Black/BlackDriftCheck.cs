using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Findings.Response;
using SensorLab.Measurement.Model;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Black;

/// <summary>
/// black-drift: dark frames of one level differ, the lit frames' own zero lies above the dark ones, or the optical black
/// pixels say that black is elsewhere.
/// </summary>
internal sealed class BlackDriftCheck : IIsoCheck
{
    /// <summary>How many times as uncertain as without what dark frames leave open black may be, before that is said.</summary>
    private const double LargestUnsaidFactor = 1.5;

    private const string Remedy = "Let the body warm up for ten minutes, and shoot dark frames before and after the bracket.";

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        OpticalBlack? mask = OpticalBlack.Of(evidence);
        if ((BetweenFrames(evidence, mask) ?? ShiftedInLight(evidence) ?? LeftOpen(evidence)) is { } moved)
        {
            yield return moved;
        }

        if (mask is { IsDarkOff: true })
        {
            yield return FlawFinding.Note(
                FindingCode.BlackDrift,
                evidence.Iso,
                Math.Abs(mask.DarkOffDn),
                "dn",
                $"At ISO {evidence.Iso} black of the dark frames lies {Math.Abs(mask.DarkOffDn):F2} DN {(mask.DarkOffDn > 0 ? "above" : "below")} the optical black pixels. Compensated: black is measured on the dark frames, not taken from these pixels.",
                "Nothing to do for the figures; a converter that takes black from these pixels is off by as much.").In(evidence.Darks);
        }
    }

    /// <summary>What widens black, and more than matters, though nothing is found.</summary>
    private static Finding? LeftOpen(IsoEvidence evidence)
    {
        double own = evidence.Channels.Average(c => evidence.Black.OwnOf(c.Name).Variance);
        double total = Math.Sqrt(own + evidence.Black.Drift.BlackDn2);
        double factor = total / Math.Sqrt(own);
        return total < BlackScatter.SmallestUncertaintyDn || factor is not (> LargestUnsaidFactor and < double.PositiveInfinity) ? null : FlawFinding.Note(
            FindingCode.BlackDrift,
            evidence.Iso,
            total,
            "dn",
            $"At ISO {evidence.Iso} the dark frames leave open whether black moves a little, or some of them hold light or a signal that grows with time. Allowed for: black's uncertainty of {total:F3} DN is {factor:F1} times what their noise leaves.",
            "Shoot more dark frames, with the lens cap on in a dark room, after ten minutes of warming up.").In(evidence.Darks);
    }

    /// <summary>Dark frames and lit ones part over the noise without light, by as little as a black that lies elsewhere in lit frames makes it; where they part by more, model-rejected says so.</summary>
    private static Finding? ShiftedInLight(IsoEvidence evidence)
    {
        (ChannelModel Channel, UnlitNoise Noise)[] apart = [.. evidence.Channels.Select(c => (c, c.Unlit!)).Where(c => c.Item2 is { AreApart: true })];
        if (apart.Length == 0 || ModelRejectedCheck.Rejects(evidence))
        {
            return null;
        }

        (ChannelModel channel, UnlitNoise noise) = apart.MaxBy(c => c.Noise.DoubtDn2);
        double shift = (noise.DarkDn2.Value - noise.LitDn2.Value) / channel.Noise[NoiseParameter.GainDnPerElectron];
        return FlawFinding.Note(
            FindingCode.BlackDrift,
            evidence.Iso,
            Math.Abs(shift),
            "dn",
            $"At ISO {evidence.Iso} lit frames leave another noise without light than dark frames have, as if their black lay {Math.Abs(shift):F2} DN {(shift > 0 ? "above" : "below")} that of the dark ones; or dark frames are noisier or quieter themselves. Allowed for: the uncertainties of read noise and of the shadow ends carry both.",
            Remedy).In(evidence.Darks);
    }

    private static Finding? BetweenFrames(IsoEvidence evidence, OpticalBlack? mask)
    {
        BlackScatter? range = evidence.Black.Scatter;
        LitBlack? zero = LitBlack.Of(evidence);
        bool risen = zero is { IsOff: true } && (zero.ShiftDn.Value > 0 || range is { MovesLitFrames: true });
        bool shifted = mask is { IsLitShifted: true };
        if (range is not { IsDrift: true } && !risen && !shifted)
        {
            return null;
        }

        double lit = Math.Max(risen ? Math.Abs(zero!.ShiftDn.Value) : 0, shifted ? Math.Abs(mask!.LitShiftDn!.Value.Value) : 0);
        double size = Math.Max(range is { IsDrift: true } ? range.RangeDn : 0, lit);
        string compensation = risen || shifted
            ? "Each level's noise is free of it; black of the lit frames is taken from the dark ones, so the darkest signals are off by as much."
            : "Compensated: black is the mean of the dark frames, its uncertainty holds their scatter.";
        string alone = DarkFrames.LoneLightDn(evidence.Darks.Select(d => d.Record)) > 0 ? " One dark frame stands out alone: if light came into it, read noise is too high, and its uncertainty allows for that." : string.Empty;
        return FlawFinding.Note(
            FindingCode.BlackDrift,
            evidence.Iso,
            size,
            "dn",
            $"At ISO {evidence.Iso} black moves by {size:F2} DN between frames. {compensation}{alone}",
            Remedy).In(evidence.Darks);
    }
}
