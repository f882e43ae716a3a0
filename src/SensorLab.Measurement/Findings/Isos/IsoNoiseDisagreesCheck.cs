using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Isos;

/// <summary>iso-disagrees: read noise in electrons rises from one ISO to the next, where amplification can only lower it.</summary>
/// <remarks>
/// σ² = a² + (c·g)² falls with g, and a second conversion gain lowers it further. What rises is light in the dark frames
/// of one ISO, smoothed raw data at the other, or a body that does something else there.
/// </remarks>
internal sealed class IsoNoiseDisagreesCheck : IIsoSeriesCheck
{
    /// <summary>A rise below a seventh moves the shadow end by less than a fifth of a stop even where read noise alone rules.</summary>
    private const double SmallestRise = 0.15;

    public IEnumerable<Finding> Examine(IReadOnlyList<IsoEvidence> isos)
    {
        foreach ((IsoEvidence lower, IsoEvidence higher) in isos.Zip(isos.Skip(1)))
        {
            if (IsoLaw.ReadNoiseOf(lower) is not { Value: > 0 } low || IsoLaw.ReadNoiseOf(higher) is not { Value: > 0 } high
                || IsoLaw.GainOf(lower) is not { } lowGain || IsoLaw.GainOf(higher) is not { } highGain || highGain.Value > lowGain.Value)
            {
                continue;
            }

            double rise = (high.Value / low.Value) - 1;
            double uncertainty = (1 + rise) * double.Hypot(high.StandardUncertainty / high.Value, low.StandardUncertainty / low.Value);
            if (rise - (Significance.Deviations * uncertainty) > 0 && rise > SmallestRise)
            {
                yield return FlawFinding.Warning(
                    FindingCode.IsoDisagrees,
                    higher.Iso,
                    rise,
                    "relative",
                    $"Read noise rises by {rise:P0} in electrons from ISO {lower.Iso} to ISO {higher.Iso}, where amplification can only lower it: light in the dark frames of one, smoothed raw data at the other, or something else that changed. Not compensated.",
                    "Shoot the dark frames of both again in one go, with the body cap on and noise reduction off; if it stays, the body does it so.");
            }
        }
    }
}
