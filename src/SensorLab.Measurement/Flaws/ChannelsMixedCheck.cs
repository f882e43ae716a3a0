using SensorLab.Measurement.Uncertainty;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Flaws;

/// <summary>raw-filtered over the channels: rows next to each other, and columns next to each other, share temporal noise though they are of other colours.</summary>
/// <remarks>
/// A filter that takes from the nearest neighbours, whatever their colour, leaves hardly a trace inside a channel. Lines
/// next to each other then correlate, lines three apart do not; bands and drifts of the light are alike in both and drop
/// out of the difference. Row noise is each row's own, and bands run along rows alone: both directions have to agree.
/// </remarks>
internal sealed class ChannelsMixedCheck : IIsoCheck
{
    /// <summary>Correlation of lines below which nothing is said. A filter takes 2.7 times as much off the variance, but less than this does not stand out of chance: in 15 levels of 24 megapixels five deviations are 1.8 %.</summary>
    private const double SmallestCorrelation = 0.01;

    /// <summary>Standard deviations of both directions together, each at least half of it: chance brings 10⁻⁶.</summary>
    private const double Deviations = 5;

    private const double HighestShare = 0.7;

    /// <summary>Noise in code steps below which rounding undoes a filter.</summary>
    private const double SmallestNoiseSteps = 2;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        int[] channels = [.. Enumerable.Range(0, evidence.Channels.Count)];
        EvidenceLevel[] levels = channels.Length < 4 ? [] : [.. evidence.Lit.Where(l => l.Record.Frames > 1
            && channels.All(c => evidence.IsBetween(l, c, 0, HighestShare) && Math.Sqrt(l.Record.Channels[c].TemporalParts!.PixelDn2) > SmallestNoiseSteps * l.Record.Channels[c].CodeStepDn))];
        if (levels.Length == 0)
        {
            yield break;
        }

        Estimate rows = Estimate.WeightedMean([.. levels.Select(l => l.Statistics.Coupling!.Rows)]);
        Estimate columns = Estimate.WeightedMean([.. levels.Select(l => l.Statistics.Coupling!.Columns)]);
        Estimate both = Estimate.WeightedMean([rows, columns]);
        if (both.Value > SmallestCorrelation && Math.Min(DeviationsOf(rows), DeviationsOf(columns)) > Deviations / 2 && DeviationsOf(both) > Deviations)
        {
            yield return FlawFinding.Warning(
                FindingCode.RawFiltered,
                evidence.Iso,
                both.Value,
                "relative",
                $"At ISO {evidence.Iso} rows and columns next to each other share noise over the colours (correlation {both.Value:P1}): the raw data were smoothed over neighbours of any colour. Not compensated: noise figures look too good, gain too high, and the channels' signals are mixed.",
                "Switch off noise reduction in the body, or compare this body only with others that smooth as much.").In(levels);
        }
    }

    private static double DeviationsOf(Estimate correlation) => correlation.Value / correlation.StandardUncertainty;
}
