using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Black;

/// <summary>noise-banded: rows or columns share noise, or a fixed pattern, beyond what their pixels' own noise explains.</summary>
internal sealed class NoiseBandedCheck : IIsoCheck
{
    /// <summary>Dark lines below a twentieth of the pixels' noise are not seen in a picture and move read noise by 0.1 %.</summary>
    private const double SmallestDarkShare = 0.05;

    /// <summary>Lines in the light are seen from half the pixels' noise on.</summary>
    private const double SmallestLitShare = 0.5;

    /// <summary>One channel of one level shows wide bands by chance in 2·10⁻⁵ of all cases.</summary>
    private const int FewestSightings = 2;

    private const string Lasting = "Nothing to do; lift deep shadows with care, since the eye sees stripes sooner than grain.";

    private const string ComesAndGoes = "Shoot the dark frames again, more of them, away from chargers, radios and lamps that are dimmed.";

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        EvidenceLevel[] darks = [.. evidence.Darks.Where(l => l.Record.Frames > 1)];
        EvidenceLevel[] bright = [.. evidence.Lit
            .Where(l => l.Record.Frames > 1 && evidence.IsBetween(l, evidence.Greens[0], 0.1, SignalShare.WellBelowClip))
            .OrderByDescending(l => evidence.SignalDn(l, evidence.Greens[0]))
            .Take(1)];
        if (FindWide(evidence, darks) is { } wide)
        {
            yield return Banded(evidence, darks, wide, "wide bands that wander from frame to frame run across the dark frames", "They are left out of the figures, black and its uncertainty excepted.");
        }

        foreach (bool rows in new[] { true, false })
        {
            string lines = rows ? "rows" : "columns";
            if (Find(evidence, darks, (l, c) => LinePart.Temporal(l, c, rows), SmallestDarkShare) is { } moving)
            {
                string moves = $"{lines} that change from frame to frame stand out of ";
                yield return evidence.Channels.Any(c => (rows ? c.LineDoubts.RowDn2 : c.LineDoubts.ColumnDn2) > 0)
                    ? Banded(evidence, darks, moving, $"{moves}some dark frames and not of others", "A frame was disturbed, or they come and go: how much of them a photograph has is left open, and the uncertainties of read noise and of the shadow ends carry it.", ComesAndGoes)
                    : Banded(evidence, darks, moving, $"{moves}the dark frames");
            }

            if (Find(evidence, darks, (l, c) => LinePart.Fixed(l, c, rows), SmallestDarkShare) is { } resting)
            {
                yield return Banded(evidence, darks, resting, $"{lines} that are the same in every frame stand out of the dark frames");
            }
            else if (Find(evidence, bright, (l, c) => LinePart.Fixed(l, c, rows), SmallestLitShare) is { } lit)
            {
                yield return Banded(evidence, bright, lit, $"{lines} of different sensitivity stand out of the bright frames");
            }
        }
    }

    /// <summary>The channels whose lines stand out, and by how much at the most; levels of one ISO are averaged.</summary>
    private static LineFound? Find(IsoEvidence evidence, EvidenceLevel[] levels, Func<EvidenceLevel, int, LinePart> part, double smallestShare)
    {
        List<LineFound> found = [];
        for (int channel = 0; channel < evidence.Channels.Count && levels.Length > 0; channel++)
        {
            LinePart[] lines = [.. levels.Select(l => part(l, channel))];
            var mean = new LinePart(
                lines.Average(l => l.VarianceDn2),
                lines.Average(l => l.ExpectedDn2),
                Math.Sqrt(lines.Sum(l => l.RelativeUncertainty * l.RelativeUncertainty)) / lines.Length);
            double pixel = levels.Average(l => l.Record.Channels[channel].TemporalParts!.PixelDn2);
            if (mean.VarianceDn2 > smallestShare * smallestShare * pixel && mean.Deviations > Significance.Deviations)
            {
                found.Add(new LineFound(Math.Sqrt(mean.VarianceDn2), Math.Sqrt(pixel), [evidence.Channels[channel].Name]));
            }
        }

        return Together(found);
    }

    /// <summary>Wide bands without light; in one channel of one level they may be chance.</summary>
    private static LineFound? FindWide(IsoEvidence evidence, EvidenceLevel[] darks)
    {
        (string Name, double Band, double Pixel)[] seen =
        [
            .. from dark in darks
               from channel in dark.Record.Channels
               let band = channel.BandVarianceDn2 ?? 0
               where band > SmallestDarkShare * SmallestDarkShare * channel.TemporalParts!.PixelDn2
               select (channel.Name, band, channel.TemporalParts!.PixelDn2),
        ];
        return seen.Length < FewestSightings ? null : Together([.. seen.GroupBy(s => s.Name).Select(g => new LineFound(Math.Sqrt(g.Max(s => s.Band)), Math.Sqrt(g.Average(s => s.Pixel)), [g.Key]))]);
    }

    private static LineFound? Together(List<LineFound> found) =>
        found.Count == 0 ? null : found.MaxBy(f => f.Dn)! with { Channels = [.. found.SelectMany(f => f.Channels)] };

    private static Finding Banded(
        IsoEvidence evidence,
        EvidenceLevel[] levels,
        LineFound found,
        string what,
        string treatment = "They are part of the figures and given apart.",
        string remedy = Lasting)
    {
        double gain = evidence.GainDnPerElectron(evidence.Greens[0]);
        bool electrons = double.IsFinite(gain);
        return FlawFinding.Note(
            FindingCode.NoiseBanded,
            evidence.Iso,
            electrons ? found.Dn / gain : found.Dn,
            electrons ? "electron" : "dn",
            $"At ISO {evidence.Iso} {what}: {found.Dn:F2} DN beside {found.PixelDn:F2} DN of a single pixel's noise. {treatment}",
            remedy).For(found.Channels, evidence.Channels.Count).In(levels);
    }

    private sealed record LineFound(double Dn, double PixelDn, IReadOnlyCollection<string> Channels);
}
