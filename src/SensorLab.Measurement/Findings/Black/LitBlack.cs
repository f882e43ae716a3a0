using SensorLab.Law;

namespace SensorLab.Measurement.Findings.Black;

/// <summary>Where the lit frames' own zero lies against the shortest dark frames.</summary>
/// <remarks>
/// Two channels of different sensitivity see the same light: S_b = β·S_a + δ(1 − β), whatever the exposure was. A
/// channel alone is compared with nominal exposure. The line's scatter is part of the uncertainty.
/// </remarks>
internal sealed record LitBlack(Estimate ShiftDn)
{
    /// <summary>Levels darker than this share of saturation: the response is straight there.</summary>
    private const double HighestShare = 0.04;

    private const int FewestLevels = 5;

    /// <summary>A fifth of a code: what the slope of real response leaves at this range.</summary>
    private const double SmallestDn = 0.2;

    /// <summary>How well β is trusted to be the same at all levels: it only sets the weights.</summary>
    private const double SlopeSpread = 0.002;

    public bool IsOff => Math.Abs(ShiftDn.Value) > SmallestDn && Math.Abs(ShiftDn.Value) > Significance.Deviations * ShiftDn.StandardUncertainty;

    /// <summary>Compares lit and dark frames; null with fewer than five dim levels.</summary>
    /// <param name="evidence">The ISO.</param>
    /// <param name="againstExposure">
    /// Whether nominal exposure serves in place of channels of different sensitivity: light in all dark frames alike has
    /// the lit ones' colour, and channels cannot tell it.
    /// </param>
    public static LitBlack? Of(IsoEvidence evidence, bool againstExposure = false)
    {
        double[]? sensitivities = evidence.Sensitivities();
        int[] channels = [.. Enumerable.Range(0, evidence.Channels.Count)];
        EvidenceLevel[] dim = [.. evidence.Lit.Where(l => l.Role == Frames.FrameRole.Bracket && channels.All(c => evidence.IsBetween(l, c, -1, HighestShare) && evidence.IsWhole(l, c)))];
        EvidenceLevel? dark = evidence.Darks.MinBy(d => d.Record.ExposureSeconds);
        if (sensitivities is null || dim.Length < FewestLevels || dark is null)
        {
            return null;
        }

        int strong = channels.MaxBy(c => sensitivities[c]);
        int weak = againstExposure ? strong : channels.MinBy(c => sensitivities[c]);
        bool several = sensitivities[weak] < SignalShare.DistinctSensitivity * sensitivities[strong];
        dim = several ? dim : dim.GroupBy(l => (l.Record.LightStep, l.Record.ApertureFNumber)).MaxBy(g => g.Count())!.ToArray();
        if (dim.Length < FewestLevels)
        {
            return null;
        }

        double Above(EvidenceLevel level, int channel) => level.Record.Channels[channel].MeanDn - evidence.UnlitDn(channel);
        double[] x = [.. dim.Select(l => several ? Above(l, strong) : l.Record.ExposureSeconds)];
        double[] y = [.. dim.Select(l => Above(l, weak))];
        double[] variances = [.. dim.Select((l, i) => evidence.VarianceOfMeanDn2(l, weak) + evidence.VarianceOfMeanDn2(l, strong) + Math.Pow(SlopeSpread * y[i], 2))];
        if (WeightedLine.Fit([.. dim.Select((_, i) => (x[i], y[i], 1 / variances[i]))]) is not { } line)
        {
            return null;
        }

        // Its uncertainty is no smaller than the residuals say.
        double scatter = Math.Max(1, line.ChiSquare / (dim.Length - 2));
        double lever = several ? 1 - line.Slope : 1;
        double blackVariance = (dark.VarianceOfFrameMean(weak) ?? 0) / dark.Record.Frames;
        return new LitBlack(new Estimate(line.Intercept / lever, Math.Sqrt((scatter * line.InterceptVariance) + (2 * blackVariance)) / lever));
    }
}
