using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Isos;

/// <summary>gain-switch: read noise in electrons drops between two ISOs by more than σ² = a² + (c·g)² allows.</summary>
/// <remarks>
/// a² and c² of two neighbouring ISOs predict the read noise of the next one to either side; a² and c² below zero count
/// as zero. An ISO that lies below the prediction from lower ISOs, or above that from higher ones, is beyond a switch.
/// </remarks>
internal sealed class GainSwitchCheck : IIsoSeriesCheck
{
    /// <summary>A tenth of the read noise: the law is not more exact than that for real converters.</summary>
    private const double SmallestShare = 0.1;

    public IEnumerable<Finding> Examine(IReadOnlyList<IsoEvidence> isos)
    {
        IsoEvidence[] known = [.. isos.Where(e => IsoLaw.GainOf(e) is not null && IsoLaw.ReadNoiseOf(e) is { Value: > 0 })];
        Estimate[] gains = [.. known.Select(e => IsoLaw.GainOf(e)!.Value)];
        Estimate[] noises = [.. known.Select(e => IsoLaw.ReadNoiseOf(e)!.Value)];
        for (int i = 1; i < known.Length; i++)
        {
            double? fromAbove = i + 1 < known.Length ? 1 - Ratio(gains, noises, i, i + 1, i - 1) : null;
            double? fromBelow = i > 1 ? 1 - (1 / Ratio(gains, noises, i - 2, i - 1, i)) : null;
            double saved = Math.Max(fromAbove ?? 0, fromBelow ?? 0);
            if (saved > SmallestShare)
            {
                yield return FlawFinding.Note(
                    FindingCode.GainSwitch,
                    known[i].Iso,
                    saved,
                    "relative",
                    $"From ISO {known[i].Iso} on the body uses a second conversion gain: read noise in electrons drops by {saved:P0} more than amplification explains.",
                    $"In little light prefer ISO {known[i].Iso} to the one below it: its shadows reach farther.");
            }
        }
    }

    /// <summary>Predicted over measured read noise of an ISO, at the end of their uncertainty nearer to 1.</summary>
    private static double Ratio(Estimate[] gains, Estimate[] noises, int first, int second, int target)
    {
        double ratio = Predict(gains, [.. noises.Select(n => n.Value)], first, second, target) / noises[target].Value;
        double variance = Math.Pow(ratio * noises[target].StandardUncertainty / noises[target].Value, 2);
        foreach (int at in new[] { first, second })
        {
            double[] moved = [.. noises.Select((n, i) => n.Value + (i == at ? n.StandardUncertainty : 0))];
            variance += Math.Pow((Predict(gains, moved, first, second, target) / noises[target].Value) - ratio, 2);
        }

        double reach = Significance.Deviations * Math.Sqrt(variance);
        return ratio > 1 ? Math.Max(1, ratio - reach) : Math.Min(1, ratio + reach);
    }

    private static double Predict(Estimate[] gains, double[] noises, int first, int second, int target)
    {
        double g = gains[first].Value * gains[first].Value;
        double h = gains[second].Value * gains[second].Value;
        double n = noises[first] * noises[first];
        double m = noises[second] * noises[second];
        double slope = Math.Max(0, (n - m) / (g - h));
        double floor = Math.Max(0, m - (slope * h));
        return Math.Sqrt(floor + (slope * gains[target].Value * gains[target].Value));
    }
}
