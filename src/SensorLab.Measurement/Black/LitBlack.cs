using SensorLab.Law;
using SensorLab.Measurement.Findings;

namespace SensorLab.Measurement.Black;

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

    private const double DistinctSensitivity = 0.85;

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
        bool several = sensitivities[weak] < DistinctSensitivity * sensitivities[strong];
        dim = several ? dim : dim.GroupBy(l => (l.Record.LightStep, l.Record.ApertureFNumber)).MaxBy(g => g.Count())!.ToArray();
        if (dim.Length < FewestLevels)
        {
            return null;
        }

        double Above(EvidenceLevel level, int channel) => level.Record.Channels[channel].MeanDn - evidence.UnlitDn(channel);
        double[] x = [.. dim.Select(l => several ? Above(l, strong) : l.Record.ExposureSeconds)];
        double[] y = [.. dim.Select(l => Above(l, weak))];
        double[] variances = [.. dim.Select((l, i) => NoiseVariance(evidence, l, weak) + NoiseVariance(evidence, l, strong) + Math.Pow(SlopeSpread * y[i], 2))];
        (double slope, Estimate intercept) = Line(x, y, variances);
        double lever = several ? 1 - slope : 1;
        double blackVariance = (dark.VarianceOfFrameMean(weak) ?? 0) / dark.Record.Frames;
        return new LitBlack(new Estimate(intercept.Value / lever, double.Hypot(intercept.StandardUncertainty, Math.Sqrt(2 * blackVariance)) / lever));
    }

    private static double NoiseVariance(IsoEvidence evidence, EvidenceLevel level, int channel) =>
        (level.VarianceOfFrameMean(channel) ?? ((evidence.Channels[channel].PhotonTransfer?.VarianceAt(evidence.SignalDn(level, channel)) ?? 1) / level.Record.PixelsPerChannel)) / level.Record.Frames;

    /// <summary>Weighted straight line; its uncertainty is no smaller than the residuals say.</summary>
    private static (double Slope, Estimate Intercept) Line(double[] x, double[] y, double[] variances)
    {
        double[] weights = [.. variances.Select(v => 1 / v)];
        double w = weights.Sum();
        double meanX = x.Zip(weights).Sum(p => p.First * p.Second) / w;
        double meanY = y.Zip(weights).Sum(p => p.First * p.Second) / w;
        double squares = 0;
        double products = 0;
        for (int i = 0; i < x.Length; i++)
        {
            squares += weights[i] * Math.Pow(x[i] - meanX, 2);
            products += weights[i] * (x[i] - meanX) * (y[i] - meanY);
        }

        double slope = products / squares;
        double chiSquare = x.Select((value, i) => weights[i] * Math.Pow(y[i] - meanY - (slope * (value - meanX)), 2)).Sum();
        double scale = Math.Max(1, chiSquare / (x.Length - 2));
        return (slope, new Estimate(meanY - (slope * meanX), Math.Sqrt(scale * ((1 / w) + (meanX * meanX / squares)))));
    }
}
