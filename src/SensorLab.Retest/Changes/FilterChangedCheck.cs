using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Retest.Changes;

/// <summary>filter-changed: neighbours share more of their noise in one set than in the other.</summary>
/// <remarks>By what the levels of both sets measured alone: a finding of one side can be chance, and the other side's silence too.</remarks>
internal sealed class FilterChangedCheck : IChangeCheck
{
    /// <summary>A correlation of 0.3 % lowers variance by 1.2 %: what gain may be off.</summary>
    private const double SmallestCorrelation = 0.003;

    /// <summary>One chance in two million an ISO: no part of the family's 2.5 %.</summary>
    private const double Deviations = 5;

    /// <summary>Noise in code steps below which rounding hides what neighbours share.</summary>
    private const double SmallestNoiseSteps = 2;

    public IEnumerable<Change> Find(RetestEvidence evidence)
    {
        foreach ((IsoProfile before, IsoProfile after) in evidence.Isos)
        {
            (double was, double wasUncertainty) = Correlation(before);
            (double isNow, double nowUncertainty) = Correlation(after);
            double difference = isNow - was;
            if (Math.Abs(difference) > Math.Max(SmallestCorrelation, Deviations * double.Hypot(wasUncertainty, nowUncertainty)))
            {
                string what = difference > 0 ? "are smoothed now, or more than before" : "were smoothed, and are less so now";
                yield return new Change(ChangeCode.FilterChanged, before.Iso, string.Create(
                    CultureInfo.InvariantCulture,
                    $"ISO {before.Iso}: raw data {what} (neighbours share {Percent(was):0.0} % of their noise before, {Percent(isNow):0.0} % after). Read noise and gain on the smoothed side look better than the sensor is: they do not compare."));
            }
        }
    }

    /// <summary>In percent with one decimal, chance below zero as zero.</summary>
    private static double Percent(double correlation) => Math.Max(0, Math.Round(100 * correlation, 1));

    /// <summary>Mean correlation of both directions over the levels that served the fit, with its standard uncertainty; NaN where there is none.</summary>
    private static (double Mean, double Uncertainty) Correlation(IsoProfile iso)
    {
        double weights = 0;
        double sum = 0;
        foreach (LevelChannel channel in iso.Levels.Where(l => l.Role != RoleName.Light).SelectMany(l => l.Channels))
        {
            if (channel is { UsedInFit: true, NeighbourCorrelation: { StandardUncertainty: > 0 } correlation, TemporalParts: { } parts }
                && Math.Sqrt(Math.Max(0, parts.PixelDn2)) > SmallestNoiseSteps * channel.CodeStepDn)
            {
                double weight = 2 / (correlation.StandardUncertainty * correlation.StandardUncertainty);
                weights += weight;
                sum += weight * (correlation.Horizontal + correlation.Vertical) / 2;
            }
        }

        return weights > 0 ? (sum / weights, 1 / Math.Sqrt(weights)) : (double.NaN, double.NaN);
    }
}
