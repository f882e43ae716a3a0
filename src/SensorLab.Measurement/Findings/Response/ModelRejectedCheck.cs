using MathNet.Numerics.Distributions;
using SensorLab.Law;
using SensorLab.Measurement.Model;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Response;

/// <summary>model-rejected: variances leave the photon-transfer line beyond chance and by more than a gain may be off.</summary>
internal sealed class ModelRejectedCheck : IIsoCheck
{
    /// <summary>Lit levels of two frames from which a line ought to come out.</summary>
    private const int FewestOfLine = 3;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        if (WithoutLine(evidence) is { } without)
        {
            yield return without;
        }

        double blackDn2 = evidence.Black.Drift.FrameDn2;
        (string Name, double Residual, double Wavering)[] rejected = [.. RejectedChannels(evidence)];
        if (rejected.Length > 0)
        {
            yield return Rejected(evidence, [.. rejected.Select(r => r.Name)], rejected.Max(r => r.Residual), rejected.Max(r => r.Wavering));
        }
        else if (Scattered(evidence, blackDn2) is { } scattered)
        {
            yield return scattered;
        }
        else if (ExcessNoise.Of(evidence.Channels, _ => blackDn2) is { Deviations: > Significance.DoubtfulExcess } excess
            && evidence.Channels.Max(c => ShareAtTop(c, excess)) is var share && share > LineMisfit.SmallestResidual)
        {
            yield return excess.Deviations > Significance.Parabola
                ? Rejected(evidence, [.. evidence.Channels.Select(c => c.Name)], share, Math.Sqrt(excess.Square.Value))
                : Doubted(evidence, excess, share);
        }
        else if (PatternScattered(evidence) is { } pattern)
        {
            yield return pattern;
        }
    }

    /// <summary>Channels whose levels ought to give a line, and give none: what hangs on it is absent, and this is why.</summary>
    private static Finding? WithoutLine(IsoEvidence evidence)
    {
        string[] names =
        [
            .. evidence.Channels
                .Where(c => c.PhotonTransfer is null && c.Levels.Count(l => !l.IsDark && l.Channel is { TemporalParts.PixelUncertaintyDn2: > 0, ClippedFraction: <= 0 }) >= FewestOfLine)
                .Select(c => c.Name),
        ];
        return names.Length == 0 ? null : FlawFinding.Warning(
            FindingCode.ModelRejected,
            evidence.Iso,
            null,
            string.Empty,
            $"At ISO {evidence.Iso} noise does not grow with light ({FlawFinding.Listed(names)}): it gives no gain, and what is counted in electrons, read noise and shadow ends are left out.",
            "Look at the points of the noise chart for levels that lie far off, and shoot those, or the dark frames, again; in-camera noise reduction has to be off.").For(names, evidence.Channels.Count).In(evidence.Lit);
    }

    /// <summary>Whether some channel's variances leave their line beyond chance, and by as much as matters.</summary>
    /// <param name="evidence">The ISO.</param>
    public static bool Rejects(IsoEvidence evidence) => RejectedChannels(evidence).Any();

    private static IEnumerable<(string Name, double Residual, double Wavering)> RejectedChannels(IsoEvidence evidence) => evidence.Channels
        .Where(c => c.PhotonTransfer is { DegreesOfFreedom: > 2 })
        .Select(c => (c.Name, Misfit: LineMisfit.Of(c, c.PhotonTransfer!, evidence.Black.Drift.FrameDn2)))
        .Where(c => c.Misfit.IsBeyondChance)
        .Select(c => (c.Name, Math.Max(c.Misfit.Residual, c.Misfit.ParabolaShare), c.Misfit.Wavering));

    private static Finding Rejected(IsoEvidence evidence, string[] names, double residual, double wavering)
    {
        var cause = MisfitCause.Of(evidence, names);
        return FlawFinding.Warning(
            FindingCode.ModelRejected,
            evidence.Iso,
            wavering,
            "relative",
            $"At ISO {evidence.Iso} noise does not grow with light as photons make it ({FlawFinding.Listed(names)}): points lie {residual:P1} off the line. {cause.Words} Not compensated: the uncertainties of gain, read noise and all that follows from them carry it, and where most of the noise is unknown they are left out.",
            cause.Remedy).For(names, evidence.Channels.Count).In(LevelsOf(cause, evidence));
    }

    /// <summary>Points that scatter by more than chance and less than matters: the fit's uncertainty carries it.</summary>
    private static Finding? Scattered(IsoEvidence evidence, double blackDn2)
    {
        (string Name, double Factor)[] wide =
        [
            .. from c in Enumerable.Range(0, evidence.Channels.Count)
               let channel = evidence.Channels[c]
               where channel.PhotonTransfer is { DegreesOfFreedom: > 2 }
               let misfit = LineMisfit.Of(channel, channel.PhotonTransfer!, blackDn2)
               let factor = ChiSquareTest.ScatterFactor(misfit.ChiSquare, misfit.Degrees)
               where factor > 1
               select (channel.Name, Math.Sqrt(factor)),
        ];
        string[] names = [.. wide.Select(w => w.Name)];
        if (names.Length == 0)
        {
            return null;
        }

        var cause = MisfitCause.Of(evidence, names);
        return FlawFinding.Note(
            FindingCode.ModelRejected,
            evidence.Iso,
            null,
            string.Empty,
            $"At ISO {evidence.Iso} the points of {FlawFinding.Listed(names)} scatter about the line of noise against light {wide.Max(w => w.Factor):F1} times as far as chance lets them. {cause.Words} The uncertainties of gain and of all that follows from it are wider by as much.",
            cause.Remedy).For(names, evidence.Channels.Count).In(LevelsOf(cause, evidence));
    }

    /// <summary>Levels whose fixed pattern leaves its law by more than chance: the fit's uncertainty carries it.</summary>
    private static Finding? PatternScattered(IsoEvidence evidence)
    {
        ChannelModel[] wide = [.. evidence.Channels.Where(c => c.PatternScatter > 1)];
        string[] names = [.. wide.Select(c => c.Name)];
        return names.Length == 0 ? null : FlawFinding.Note(
            FindingCode.ModelRejected,
            evidence.Iso,
            null,
            string.Empty,
            $"At ISO {evidence.Iso} the fixed pattern of {FlawFinding.Listed(names)} does not grow as light does: levels lie {wide.Max(c => c.PatternScatter):F1} times as far from the law of DSNU and PRNU as chance lets them. Photosites then bend apart or have dark currents of their own, or the target's texture changed between levels. The uncertainties of DSNU, PRNU and the shadow ends are wider by as much.",
            "Nothing, if it is the sensor's own, which comes back in every set. If not: fix camera, lamp and target, throw the target further out of focus, and shoot the bracket again in one go.").For(names, evidence.Channels.Count).In(FittedLevels(evidence));
    }

    private static Finding Doubted(IsoEvidence evidence, ExcessNoise excess, double share) => FlawFinding.Note(
        FindingCode.ModelRejected,
        evidence.Iso,
        Math.Sqrt(excess.Square.Value),
        "relative",
        $"At ISO {evidence.Iso} noise may grow faster with light than photons make it: by {share:P1} at the bright end of the fit, which chance alone does once in {1 / Normal.CDF(0, 1, -excess.Deviations):F0} times. If it is no chance, gain is off by {evidence.Channels.Max(c => GainShift(c, excess)):P1}; its uncertainty allows for a part of that.",
        "Shoot the bracket again under a steady lamp, with more frames a level: what is chance does not come back.").In(FittedLevels(evidence));

    private static IEnumerable<EvidenceLevel> LevelsOf(MisfitCause cause, IsoEvidence evidence) => cause.IsOfDarkFrames ? evidence.Darks : FittedLevels(evidence);

    private static IEnumerable<EvidenceLevel> FittedLevels(IsoEvidence evidence) =>
        evidence.Levels.Where(l => l.Record.Channels.Any(c => c.UsedInFit));

    /// <summary>What an excess has of the variance at a channel's brightest point of the fit; 0 without a line.</summary>
    private static double ShareAtTop(ChannelModel channel, ExcessNoise excess)
    {
        if (channel.PhotonTransfer is not { } line)
        {
            return 0;
        }

        double top = channel.Levels.Where(l => channel.FitLevels.Contains(l.Level)).Max(l => l.Channel.MeanDn) - channel.Noise[NoiseParameter.BlackDn];
        return excess.Square.Value * top * top / line.VarianceAt(top);
    }

    /// <summary>By what share an excess moves a channel's gain; 0 without a line.</summary>
    private static double GainShift(ChannelModel channel, ExcessNoise excess) =>
        channel.PhotonTransfer is { } line ? Math.Abs(channel.GainShiftOfExcess * excess.Square.Value / line.GainDnPerElectron) : 0;
}
