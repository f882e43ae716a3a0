using SensorLab.Measurement.Uncertainty;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Flaws;

/// <summary>noise-banded: rows or columns share noise, or a fixed offset, beyond what their pixels' own noise explains.</summary>
internal sealed class NoiseBandedCheck : IIsoCheck
{
    /// <summary>Line noise below a twentieth of the pixels' noise is not seen in a picture and moves read noise by 0.1 %.</summary>
    private const double SmallestShare = 0.05;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        foreach ((string what, Func<VarianceParts, Estimate> part, bool temporal) in Kinds)
        {
            if (Find(evidence, part, temporal) is { } found)
            {
                string kind = temporal ? "change from frame to frame" : "are the same in every frame";
                double gain = evidence.GainDnPerElectron(evidence.Greens[0]);
                bool electrons = double.IsFinite(gain);
                double size = electrons ? found.Dn / gain : found.Dn;
                yield return FlawFinding.Note(
                    FindingCode.NoiseBanded,
                    evidence.Iso,
                    size,
                    electrons ? "electron" : "dn",
                    $"At ISO {evidence.Iso} {what} that {kind} stand out of the dark frames: {found.Dn:F2} DN beside {found.PixelDn:F2} DN of the single pixel. They are part of the noise figures and given apart.",
                    "Nothing to do; lift deep shadows with care, since the eye sees stripes sooner than grain.").For(found.Channels, evidence.Channels.Count).In(evidence.Darks);
            }
        }
    }

    private static (string What, Func<VarianceParts, Estimate> Part, bool Temporal)[] Kinds =>
    [
        ("rows", p => new Estimate(p.RowDn2, p.RowUncertaintyDn2), true),
        ("columns", p => new Estimate(p.ColumnDn2, p.ColumnUncertaintyDn2), true),
        ("rows", p => new Estimate(p.RowDn2, p.RowUncertaintyDn2), false),
        ("columns", p => new Estimate(p.ColumnDn2, p.ColumnUncertaintyDn2), false),
    ];

    /// <summary>The largest line part of the channels' dark levels; a level's own relative uncertainty is that of a variance, hence judged as one.</summary>
    private static (double Dn, double PixelDn, string[] Channels)? Find(IsoEvidence evidence, Func<VarianceParts, Estimate> part, bool temporal)
    {
        List<(string Name, double Dn, double PixelDn)> found = [];
        for (int channel = 0; channel < evidence.Channels.Count; channel++)
        {
            LevelChannel[] darks = [.. evidence.Darks.Select(d => d.Record.Channels[channel]).Where(c => c.TemporalParts is not null)];
            if (darks.Length == 0)
            {
                continue;
            }

            Estimate[] lines = [.. darks.Select(d => part(temporal ? d.TemporalParts! : d.FixedPatternParts!))];
            double variance = lines.Average(l => l.Value);
            double uncertainty = Math.Sqrt(lines.Sum(l => l.Variance)) / lines.Length;
            double pixel = darks.Average(d => temporal ? d.TemporalParts!.PixelDn2 : d.TemporalParts!.PixelDn2 + Math.Max(0, d.FixedPatternParts!.PixelDn2));
            bool large = variance > SmallestShare * SmallestShare * pixel;
            if (large && variance > Significance.Deviations * uncertainty)
            {
                found.Add((evidence.Channels[channel].Name, Math.Sqrt(variance), Math.Sqrt(pixel)));
            }
        }

        if (found.Count == 0)
        {
            return null;
        }

        (string _, double dn, double pixelDn) = found.MaxBy(f => f.Dn);
        return (dn, pixelDn, [.. found.Select(f => f.Name)]);
    }
}
