using System.Globalization;
using SensorLab.Law;
using SensorLab.Measurement.Findings.Codes;
using SensorLab.Measurement.Model;

namespace SensorLab.Measurement.Findings.Response;

/// <summary>Why variances leave their line, as far as the pattern of what is left tells it.</summary>
/// <param name="Words">A sentence that names the cause, or says that none shows.</param>
/// <param name="Remedy">What to do about it.</param>
internal sealed record MisfitCause(string Words, string Remedy)
{
    /// <summary>Whether the dark frames have it, and not the fit's levels alike.</summary>
    public bool IsOfDarkFrames { get; init; }

    /// <summary>A factor of codes that differs by less from 1 is no gap.</summary>
    private const double SmallestGap = 1.002;

    /// <summary>Scatter that channels share over what they have alone, from which on they agree: of chance alone, the two are equal.</summary>
    private const double AgreementRatio = 3;

    /// <summary>A bend, as ln of what is missing at saturation, from which on it matters by what law it goes.</summary>
    private const double LargestBend = 0.05;

    private const string NewBracket = "Look at the points of the noise chart; shoot the bracket again under a steady lamp, with in-camera noise reduction switched off.";

    private const string NothingToShoot = "Nothing to shoot again: another lossless or uncompressed recording mode of the body may have all codes.";

    /// <summary>The cause at an ISO, the surest first.</summary>
    /// <param name="evidence">The ISO.</param>
    /// <param name="names">The channels that leave their line.</param>
    public static MisfitCause Of(IsoEvidence evidence, IReadOnlyCollection<string> names)
    {
        double[] factors = evidence.CodeSteps.Value.FactorsDn;
        (string Name, double Factor)[] gaps = [.. evidence.Channels.Select((c, i) => (c.Name, Factor: factors[i])).Where(c => names.Contains(c.Name) && c.Factor > SmallestGap)];
        if (gaps.Length > 0)
        {
            return new MisfitCause($"The codes have gaps ({Each(gaps)}): where noise is narrower than two of them, rounding is no even noise.", NothingToShoot);
        }

        if (ConverterSteps.UnevennessOf(evidence) is { } uneven)
        {
            return new MisfitCause(Text($"The converter's steps are uneven: some codes are met more often than their neighbours, by some {uneven:P0}, and noise depends on where it falls."), NothingToShoot);
        }

        if (UnlitNoiseApart(evidence) is { } unlit)
        {
            return new MisfitCause(
                Text($"Without light pixels have a noise of {Math.Sqrt(Math.Max(0, unlit.DarkDn2.Value)):F2} DN by the dark frames and of {Math.Sqrt(Math.Max(0, unlit.LitDn2.Value)):F2} DN by the lit ones: a dark frame was disturbed, or they are read in another mode."),
                "Shoot the dark frames again, right after the bracket, with the same drive and shutter and in-camera noise reduction switched off.") { IsOfDarkFrames = true };
        }

        if (ExcessNoise.Of(evidence.Channels, _ => evidence.Black.Drift.FrameDn2) is { } excess && excess.Deviations > Significance.Parabola)
        {
            string wavering = Text($"{Math.Sqrt(excess.Square.Value):P2}");
            return RowsGrow(evidence)
                ? new MisfitCause($"The lamp's light is noisy: it differs by some {wavering} from pixel to pixel of a frame, and rows share it.", "Use another lamp: on direct current, or daylight.")
                : new MisfitCause($"Beside the photons' noise there is one that grows with the light itself, {wavering} of it: pixels whose response wavers from frame to frame, or a lamp's own noise.", "Shoot the bracket again under another lamp; if it stays, the body does it so.");
        }

        if (evidence.Residual is { ChannelsDisagree: true } || evidence.Response.Value is { BendIsSensors: true, IsBent: true, Bend.Value: > LargestBend or < -LargestBend })
        {
            return new MisfitCause("The response is not straight, either, unless the light changed its colour: noise follows the slope, which the fit knows only as far as the response bends by the law that is assumed.", "Nothing to shoot again: points of the noise chart tell more than the line.");
        }

        return ChannelsAgree(evidence, names)
            ? new MisfitCause("All channels leave it at the same exposures: light that was not steady in those frames.", NewBracket)
            : new MisfitCause("The points follow no pattern that would name the cause.", NewBracket);
    }

    /// <summary>Where dark frames and lit ones part most over the noise without light; null where they do not, or lit ones alone leave their line as well.</summary>
    private static UnlitNoise? UnlitNoiseApart(IsoEvidence evidence)
    {
        UnlitNoise[] all = [.. evidence.Channels.Select(c => c.Unlit).OfType<UnlitNoise>()];
        return all.All(u => u.IsLitLine) ? all.Where(u => u.AreApart).MaxBy(u => u.DoubtDn2 / u.DarkDn2.Value) : null;
    }

    private static string Each((string Name, double Factor)[] gaps) =>
        gaps.All(g => g.Factor < SmallestGap * gaps.Min(other => other.Factor))
            ? Text($"every {gaps[0].Factor:0.###} DN")
            : FlawFinding.Listed([.. gaps.Select(g => Text($"{g.Name} multiplied by {g.Factor:F3}"))]);

    /// <summary>Whether rows scatter the more the brighter a level is, beyond what they do in the dark: by the square of the signal, as light does.</summary>
    private static bool RowsGrow(IsoEvidence evidence) => Enumerable.Range(0, evidence.Channels.Count).All(c =>
    {
        EvidenceLevel[] levels = [.. evidence.Lit.Where(l => l.Record.Channels[c] is { UsedInFit: true, TemporalParts: not null })];
        return levels.Length > 0 && levels.MaxBy(l => evidence.SignalDn(l, c))!.Record.Channels[c].TemporalParts is { } brightest
            && brightest.RowDn2 > Significance.Scattered * brightest.RowUncertaintyDn2
            && brightest.RowDn2 > 2 * evidence.Darks.Select(d => d.Record.Channels[c].TemporalParts?.RowDn2 ?? 0).DefaultIfEmpty(0).Max();
    });

    /// <summary>Whether what levels are off goes together in all channels, and not with the codes.</summary>
    private static bool ChannelsAgree(IsoEvidence evidence, IReadOnlyCollection<string> names)
    {
        if (names.Count < 2 || names.Count < evidence.Channels.Count)
        {
            return false;
        }

        double together = 0;
        double alone = 0;
        foreach (EvidenceLevel level in evidence.Lit.Where(l => l.Record.Channels.All(c => c is { UsedInFit: true, TemporalParts: not null })))
        {
            double[] off = [.. evidence.Channels.Select((c, i) => (level.VarianceOfPixel(i)!.Value / c.PhotonTransfer!.VarianceAt(c.Noise.Response.ShotSignalOf(evidence.SignalDn(level, i)))) - 1)];
            double mean = off.Average();
            together += off.Length * mean * mean;
            alone += off.Sum(o => (o - mean) * (o - mean)) / (off.Length - 1);
        }

        return together > AgreementRatio * alone;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
