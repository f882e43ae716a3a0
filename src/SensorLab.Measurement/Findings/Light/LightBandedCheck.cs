using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Light;

/// <summary>light-banded: wide bands across the rows that wander between the frames of lit levels.</summary>
/// <remarks>
/// One channel of one level shows bands by chance in 2·10⁻⁵ of all cases. Two of them in one level, or in two levels,
/// are under 10⁻⁶ a set.
/// </remarks>
internal sealed class LightBandedCheck : IIsoCheck
{
    private const int FewestSightings = 2;

    /// <summary>Amplitude below which bands are far below the noise of any picture.</summary>
    private const double SmallestAmplitude = 0.003;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        double[] darkBands = [.. evidence.Channels.Select((_, c) => evidence.Darks.Max(d => d.Record.Channels[c].BandVarianceDn2 ?? 0))];
        List<(EvidenceLevel Level, double Amplitude)> sightings = [];
        foreach (EvidenceLevel level in evidence.Lit)
        {
            for (int channel = 0; channel < evidence.Channels.Count; channel++)
            {
                double amplitude = LampPulse.Amplitude(level.Record.Channels[channel].BandVarianceDn2 ?? 0, darkBands[channel], evidence.SignalDn(level, channel));
                if (amplitude > SmallestAmplitude && evidence.IsBetween(level, channel, 0, 0.9))
                {
                    sightings.Add((level, amplitude));
                }
            }
        }

        if (sightings.Count >= FewestSightings)
        {
            EvidenceLevel[] levels = [.. sightings.Select(s => s.Level).Distinct()];
            double largest = sightings.Max(s => s.Amplitude);
            yield return FlawFinding.Warning(
                FindingCode.LightBanded,
                evidence.Iso,
                largest,
                "relative",
                $"At ISO {evidence.Iso} the lamp pulses: bands up to {largest:P1} strong run across {levels.Length} exposures and wander from frame to frame. Compensated: they were taken out of the noise.",
                "Use the mechanical shutter with exposures of 1/50 s and longer, or a lamp on direct current or daylight.").In(levels);
        }
    }
}
