using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Codes;

/// <summary>levels-declared: black or white as the file declares it differs from what was measured; converters believe the file.</summary>
internal sealed class LevelsDeclaredCheck : IIsoCheck
{
    /// <summary>More than a declared whole number may be off by rounding.</summary>
    private const double SmallestBlackDn = 0.55;

    /// <summary>White off by more than saturation may be.</summary>
    private const double SmallestWhiteShare = 0.005;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        (string Name, double Off)[] blacks = [.. evidence.Channels
            .Select((c, i) => (c.Name, Off: evidence.Options.DeclaredBlackDn.TryGetValue(c.Name, out double declared) ? declared - evidence.BlackDn(i) : 0))
            .Where((b, i) => Math.Abs(b.Off) > SmallestBlackDn + (Significance.Deviations * (evidence.Profile.Channels[i].BlackLevelDn?.StandardUncertainty ?? 0)))];
        if (blacks.Length > 0)
        {
            string[] names = [.. blacks.Select(b => b.Name)];
            double off = blacks.MaxBy(b => Math.Abs(b.Off)).Off;
            yield return FlawFinding.Note(
                FindingCode.LevelsDeclared,
                evidence.Iso,
                Math.Abs(off),
                "dn",
                $"At ISO {evidence.Iso} files declare a black {Math.Abs(off):F2} DN {(off > 0 ? "above" : "below")} the measured one. All figures go by the measured one.",
                "Expect a colour cast in deep shadows from converters that believe the file; set black by hand where they allow it.").For(names, evidence.Channels.Count);
        }

        double[] whites = [.. evidence.Channels.Select(c => c.Noise[NoiseParameter.SaturationMeanDn]).Where(double.IsFinite)];
        if (evidence.Options.DeclaredWhiteDn is { } white && whites.Length > 0)
        {
            double off = white - whites.Min();
            if (Math.Abs(off) > SmallestWhiteShare * whites.Min())
            {
                yield return FlawFinding.Note(
                    FindingCode.LevelsDeclared,
                    evidence.Iso,
                    Math.Abs(off),
                    "dn",
                    $"At ISO {evidence.Iso} files declare a white {Math.Abs(off):F0} DN {(off > 0 ? "above" : "below")} the measured saturation. All figures go by the measured one.",
                    off > 0 ? "Expect tinted highlights from converters that believe the file; lower its white level where they allow it." : "Nothing to do; a converter may show a little less headroom than the file holds.");
            }
        }
    }
}
