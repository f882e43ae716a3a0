using SensorLab.Law;
using SensorLab.Measurement.Levels;

namespace SensorLab.Measurement.Response;

/// <summary>Finds the plateau that more exposure no longer moves.</summary>
/// <remarks>EMVA 1288 R4 Linear, saturation capacity, judged by the mean and not by the variance's maximum alone.</remarks>
public static class SaturationEstimator
{
    /// <summary>Share of its due by which a level on the plateau may still move with exposure.</summary>
    private const double PlateauResponse = 0.1;

    /// <summary>Two levels on a plateau differ by no more than this share of their mean.</summary>
    private const double PlateauSpread = 0.02;

    /// <summary>Share of clipped pixels up to which a plateau is the full well's: wells of different depth, or their noise, reach the converter's ceiling here and there.</summary>
    private const double MostOnPlateau = 0.5;

    /// <summary>Exposure ratio from which two levels count as different.</summary>
    private const double DistinctExposure = 1.1;

    /// <summary>Share of the variance that light of that level would have, below which all pixels are at their full well.</summary>
    private const double CollapsedVariance = 0.1;

    /// <summary>Estimates saturation.</summary>
    /// <param name="lit">The channel's lit levels.</param>
    /// <param name="blackDn">Black level in DN.</param>
    /// <param name="photonTransfer">The channel's photon-transfer line; null where there is none.</param>
    public static Saturation Of(IReadOnlyList<ObservedLevel> lit, double blackDn, PhotonTransfer? photonTransfer)
    {
        ObservedLevel top = lit.MaxBy(l => l.Channel.MeanDn)!;
        double highest = top.Channel.MeanDn;
        List<ObservedLevel> plateau = Plateau(lit, blackDn);
        if (lit.Any(l => l.Channel.ClippedFraction > 0) && !(plateau.Count > 1 && lit.All(l => l.Channel.ClippedFraction < MostOnPlateau)))
        {
            double clipCode = lit.Where(l => l.Channel.ClippedFraction > 0).Max(l => l.Channel.HighestCodeDn!.Value);
            return new Saturation(new Estimate(clipCode, 0), Math.Min(highest, clipCode), AtConverter: true);
        }

        if (plateau.Count > 1)
        {
            return new Saturation(MeanOf(plateau), highest, AtConverter: false);
        }

        bool collapsed = photonTransfer is not null && top.Channel.TemporalParts is { } parts
            && parts.PixelDn2 < photonTransfer.InterceptDn2 + (CollapsedVariance * photonTransfer.GainDnPerElectron * (highest - blackDn));
        return new Saturation(collapsed ? new Estimate(highest, top.Channel.MeanUncertaintyDn) : null, highest, AtConverter: false);
    }

    private static List<ObservedLevel> Plateau(IReadOnlyList<ObservedLevel> lit, double blackDn)
    {
        // Dim levels may be equal, too, by noise or under a cap: nothing saturates below what another level shows.
        double highest = lit.Max(l => l.Channel.MeanDn);
        List<ObservedLevel> best = [];
        foreach (IGrouping<(string?, double?), ObservedLevel> light in lit.GroupBy(l => (l.Level.LightStep, l.Level.ApertureFNumber)))
        {
            ObservedLevel[] byExposure = [.. light.OrderBy(l => l.Exposure)];
            ObservedLevel most = byExposure[^1];
            double signal = most.Channel.MeanDn - blackDn;
            if (signal < (1 - PlateauSpread) * (highest - blackDn))
            {
                continue;
            }

            List<ObservedLevel> plateau = [.. byExposure.Where(l => l == most || IsLevelWith(l, most, signal))];
            DropDimmestOutliers(plateau);
            bool distinct = plateau.Count > 1 && most.Exposure >= DistinctExposure * plateau[0].Exposure;
            if (distinct && plateau.Count > best.Count)
            {
                best = plateau;
            }
        }

        return best;
    }

    private static bool IsLevelWith(ObservedLevel level, ObservedLevel most, double signal)
    {
        double moved = Math.Abs(most.Channel.MeanDn - level.Channel.MeanDn) / signal;
        double due = (most.Exposure / level.Exposure) - 1;
        return due > 0 && moved < PlateauSpread && moved < PlateauResponse * due;
    }

    private static void DropDimmestOutliers(List<ObservedLevel> plateau)
    {
        while (plateau.Count > 2)
        {
            Estimate rest = MeanOf(plateau[1..]);
            double spread = Math.Max(rest.StandardUncertainty * Math.Sqrt(plateau.Count - 1), plateau[0].Channel.MeanUncertaintyDn);
            if (rest.Value - plateau[0].Channel.MeanDn <= Significance.BelowPlateau * spread)
            {
                return;
            }

            plateau.RemoveAt(0);
        }
    }

    private static Estimate MeanOf(List<ObservedLevel> levels)
    {
        double mean = levels.Average(l => l.Channel.MeanDn);
        double sampling = levels.Average(l => l.Channel.MeanUncertaintyDn);
        double scatter = levels.Count > 1 ? levels.Sum(l => Math.Pow(l.Channel.MeanDn - mean, 2)) / (levels.Count - 1) / levels.Count : 0;
        double variance = (sampling * sampling) + scatter;
        return new Estimate(mean, Math.Sqrt(variance), scatter > 0 ? (levels.Count - 1) * Math.Pow(variance / scatter, 2) : double.PositiveInfinity);
    }
}
