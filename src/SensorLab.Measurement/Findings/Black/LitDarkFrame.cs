using SensorLab.Law;
using SensorLab.Sets;

namespace SensorLab.Measurement.Findings.Black;

/// <summary>A dark frame that light came into, and not into the others of its level: it is brighter in the light's colour, while a black that drifts moves all channels alike.</summary>
/// <param name="Level">Its level.</param>
/// <param name="Frame">The frame.</param>
/// <param name="LightDn">The light in green's DN.</param>
internal sealed record LitDarkFrame(EvidenceLevel Level, SetFrame Frame, Estimate LightDn)
{
    /// <summary>Looks for the clearest; null where channels do not differ in sensitivity, or none is lit.</summary>
    /// <param name="evidence">The ISO.</param>
    public static LitDarkFrame? Of(IsoEvidence evidence)
    {
        if (evidence.Sensitivities() is not { } sensitivities || !SignalShare.AreDistinct(sensitivities))
        {
            return null;
        }

        return evidence.Darks
            .Where(d => d.Record.Frames > 1)
            .Select(d => Brightest(d, sensitivities))
            .Where(f => DarkRise.IsLight(f.LightDn))
            .MaxBy(f => f.LightDn.Value);
    }

    private static LitDarkFrame Brightest(EvidenceLevel level, double[] sensitivities)
    {
        int frames = level.Record.Frames;
        int brightest = Enumerable.Range(0, frames).MaxBy(f => level.Record.Channels.Sum(c => c.FrameMeansDn[f]));
        Estimate[] excess = [.. level.Record.Channels.Select((c, i) => new Estimate(
            c.FrameMeansDn[brightest] - c.FrameMeansDn.Where((_, f) => f != brightest).Average(),
            Math.Sqrt(level.VarianceOfFrameMean(i)!.Value * frames / (frames - 1))))];
        return new LitDarkFrame(level, level.Statistics.Level.Frames[brightest], DarkRise.Split(excess, sensitivities).Light ?? default);
    }
}
