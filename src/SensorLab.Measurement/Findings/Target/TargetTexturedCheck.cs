using SensorLab.Law;
using SensorLab.Pixels;
using SensorLab.Pixels.Neighbours;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Target;

/// <summary>target-textured: what all frames show alike goes together from pixel to pixel and grows with light; a sensor's own pattern does not.</summary>
/// <remarks>
/// The covariance of neighbours in the sum of a level's frames, less what it would be if all correlated as the temporal
/// noise does (smoothed raw data correlate in both), and less that of dark frames: offsets by turns go together without
/// light. Texture shows in both directions, a row or column pattern in one at most; a weave as fine as the photosites
/// makes neighbours differ, one of twice their size, or of a repeat's, makes sites farther apart differ while what next
/// neighbours share and what they do not cancel out.
/// </remarks>
internal sealed class TargetTexturedCheck : IIsoCheck
{
    /// <summary>Relative standard deviation below which texture moves PRNU by less than a percent of the signal's.</summary>
    private const double SmallestRelative = 0.001;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        int green = evidence.Greens[0];
        EvidenceLevel[] levels = [.. evidence.Lit.Where(l => l.Record.Frames > 1 && evidence.IsBetween(l, green, 0.1, 0.6))];
        if (levels.Length == 0)
        {
            yield break;
        }

        EvidenceLevel[] darks = [.. evidence.Darks.Where(d => d.Record.Frames > 1)];
        double Texture(Func<NeighbourSums, (double, double)> covariances)
        {
            double unlit = darks.Select(d => TogetherDn2(d, green, covariances)).DefaultIfEmpty(0).Average();
            return levels.Average(l => (TogetherDn2(l, green, covariances) - unlit) / Math.Pow(evidence.SignalDn(l, green), 2));
        }

        double near = Texture(NearDn2);
        double farther = Texture(FartherDn2);
        double square = Math.Abs(near) < Math.Abs(farther) ? farther : near;
        double uncertainty = Uncertainty(levels, green, evidence);
        double relative = Math.Sqrt(Math.Abs(square));
        if (relative > SmallestRelative && Math.Abs(square) > Significance.WellKnown * uncertainty)
        {
            yield return FlawFinding.Warning(
                FindingCode.TargetTextured,
                evidence.Iso,
                relative,
                "relative",
                $"At ISO {evidence.Iso} the field shows structure of {relative:P1} (texture, dust or something in focus) that passes for the sensor's own pattern. Gain and read noise are free of it. Not compensated: PRNU is an upper bound, shadow ends and total SNR are lower ones, and the bright end's uncertainty allows for structure where the meter looks.",
                "Defocus fully, hold a diffuser before the lens, clean the sensor, or choose a cleaner region.").In(levels);
        }
    }

    private static (double HorizontalDn2, double VerticalDn2) NearDn2(NeighbourSums sums) => (sums.HorizontalDn2, sums.VerticalDn2);

    private static (double FirstDn2, double SecondDn2) FartherDn2(NeighbourSums sums) => sums.FartherDn2 ?? NearDn2(sums);

    /// <summary>Covariance of neighbours in the mean of a level's frames, in DN², that is neither temporal noise nor of one direction only.</summary>
    private static double TogetherDn2(EvidenceLevel level, int channel, Func<NeighbourSums, (double HorizontalDn2, double VerticalDn2)> covariances)
    {
        ChannelStatistics own = level.Statistics.Channels[channel];
        double frames = level.Record.Frames;
        double smoothed = own.TemporalNeighbours.VarianceDn2 > 0 ? own.StackNeighbours.VarianceDn2 / own.TemporalNeighbours.VarianceDn2 : 0;
        (double allHorizontal, double allVertical) = covariances(own.StackNeighbours);
        (double noiseHorizontal, double noiseVertical) = covariances(own.TemporalNeighbours);
        double horizontal = allHorizontal - (smoothed * noiseHorizontal);
        double vertical = allVertical - (smoothed * noiseVertical);
        (double less, double more) = Math.Abs(horizontal) < Math.Abs(vertical) ? (horizontal, vertical) : (vertical, horizontal);
        double mixed = less / more < 0.25 ? less : (horizontal + vertical) / 2;
        return mixed / (frames * frames);
    }

    /// <summary>Standard uncertainty of the mean covariance without texture.</summary>
    /// <remarks>All levels see the same pixels: the sampling of their pattern does not average out over levels; temporal noise does.</remarks>
    private static double Uncertainty(EvidenceLevel[] levels, int channel, IsoEvidence evidence)
    {
        double pattern = 0;
        double temporal = 0;
        foreach (EvidenceLevel level in levels)
        {
            ChannelStatistics own = level.Statistics.Channels[channel];
            double frames = level.Record.Frames;
            double norm = Math.Pow(frames * evidence.SignalDn(level, channel), 2) * Math.Sqrt(2 * own.StackNeighbours.Pairs);
            double total = own.StackNeighbours.VarianceDn2 / norm;
            double resting = Math.Max(0, own.StackNeighbours.VarianceDn2 - (frames * own.TemporalNeighbours.VarianceDn2 / 2)) / norm;
            pattern += resting / levels.Length;

            // Twice: once of the sum's own covariance, once of the temporal one that is taken off it.
            temporal += ((2 * total * total) - (resting * resting)) / (levels.Length * (double)levels.Length);
        }

        return Math.Sqrt((pattern * pattern) + temporal);
    }
}
