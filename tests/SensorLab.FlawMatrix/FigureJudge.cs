using System.Globalization;
using SensorLab.FlawMatrix.Foreign;
using SensorLab.Profiles;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.FlawMatrix;

/// <summary>Holds the figures of an ISO against its truth and against the same set without the flaw.</summary>
internal static class FigureJudge
{
    // The measurement model (protocols/measurement-model.md), section 11: what right means.
    private const double GainTolerance = 0.01;
    private const double ReadNoiseTolerance = 0.03;
    private const double SaturationTolerance = 0.005;
    private const double BlackToleranceDn = 0.05;
    private const double Deviations = 5;
    private const double UncertaintyRatio = 1.5;

    /// <summary>The figures that are not right, each with what is wrong; empty where all are. A figure that is wide, a bound or absent misleads nobody.</summary>
    /// <param name="iso">The ISO as characterised; null where it was refused.</param>
    /// <param name="clean">The same ISO without the flaw.</param>
    /// <param name="truth">What is true.</param>
    /// <param name="cleanTruth">What is true without the flaw: a flaw of the body may change it.</param>
    /// <param name="terms">What the flaw changes in what is owed.</param>
    public static IReadOnlyList<(string Fault, bool Misleads)> Wrong(IsoProfile? iso, IsoProfile clean, IsoTruth truth, IsoTruth cleanTruth, ForeignTerms terms) =>
        iso is null ? [("refused", false)] : [.. Compared(iso, clean, truth, cleanTruth, terms).Select(c => c.Fault()).OfType<(string, bool)>()];

    private static IEnumerable<ComparedFigure> Compared(IsoProfile iso, IsoProfile clean, IsoTruth truth, IsoTruth cleanTruth, ForeignTerms terms)
    {
        double gain = truth.GainElectronPerDn / cleanTruth.GainElectronPerDn;
        double noise = truth.ReadNoiseElectron / cleanTruth.ReadNoiseElectron;
        double pattern = Math.Max(1, truth.DsnuElectron / cleanTruth.DsnuElectron / gain);
        foreach ((ChannelProfile own, ChannelProfile other) in iso.Channels.Zip(clean.Channels).Where(c => !terms.IsOwnLaw(c.First.Name)))
        {
            double readNoiseDn = truth.ReadNoiseElectron / truth.GainElectronPerDn;
            yield return new($"gain {own.Name}", own.GainElectronPerDn, other.GainElectronPerDn, truth.GainElectronPerDn, GainTolerance * truth.GainElectronPerDn, gain);
            yield return new($"read noise (e) {own.Name}", own.ReadNoiseElectron, other.ReadNoiseElectron, truth.ReadNoiseElectron, ReadNoiseTolerance * truth.ReadNoiseElectron, Math.Max(1, noise));
            yield return new($"read noise (DN) {own.Name}", own.ReadNoiseDn, other.ReadNoiseDn, readNoiseDn, ReadNoiseTolerance * readNoiseDn, Math.Max(1, noise / gain));
            yield return new($"saturation {own.Name}", own.SaturationDn, other.SaturationDn, truth.SaturationDn, SaturationTolerance * truth.SaturationDn);
            yield return new($"black {own.Name}", own.BlackLevelDn, other.BlackLevelDn, truth.BlackLevelDn, BlackToleranceDn, Math.Max(pattern, noise / gain));
        }

        if (truth.AboveEv is { } above)
        {
            yield return new("above", iso.Latitude.AboveEv, clean.Latitude.AboveEv, above, terms.AboveToleranceEv);
        }

        foreach (ShadowEnd end in clean.Latitude.BelowEv)
        {
            Figure? own = iso.Latitude.BelowEv.FirstOrDefault(b => b.Snr == end.Snr)?.PerPixel;
            string name = string.Create(CultureInfo.InvariantCulture, $"snr{end.Snr}");
            if (truth.BelowEv.TryGetValue(name, out double below))
            {
                yield return new($"below {name}", own, end.PerPixel, below, ForeignTerms.ToleranceEv);
            }
        }
    }

    /// <summary>A figure, the clean set's, the truth, and how many times larger it is than without the flaw: its uncertainty may be, too.</summary>
    private sealed record ComparedFigure(string Name, Figure? Own, Figure? Clean, double Truth, double Tolerance, double Scale = 1)
    {
        public (string Fault, bool Misleads)? Fault()
        {
            if (Own?.Value is not { } value)
            {
                // A bound may exclude the truth by no more than a figure may be off.
                if (Own is { } bound && (bound.AtLeast - Truth > Tolerance || Truth - bound.AtMost > Tolerance))
                {
                    return (string.Create(CultureInfo.InvariantCulture, $"{Name} bounded by {bound.AtLeast ?? bound.AtMost:G4}, the truth {Truth:G4} beyond"), true);
                }

                // What the clean set cannot give either is owed to nobody.
                return Clean?.Value is null ? null : ($"{Name} {(Own is null ? "absent" : "a bound")}", false);
            }

            double uncertainty = Own.StandardUncertainty!.Value;
            double error = value - Truth;
            if (Math.Abs(error) > Math.Max(Tolerance, Deviations * uncertainty))
            {
                return (string.Create(CultureInfo.InvariantCulture, $"{Name} off by {error:G3} ({(Tolerance > 0 ? error / Tolerance : error):F1} tolerances, {error / uncertainty:F1} u)"), true);
            }

            // An uncertainty that lets no error beyond the tolerance pass hides nothing, however small the clean set's is.
            return Clean?.StandardUncertainty is { } other && uncertainty > UncertaintyRatio * Scale * other && Deviations * uncertainty > Math.Max(Tolerance, ForeignTerms.ToleranceEv * (Name.StartsWith("above", StringComparison.Ordinal) ? 1 : 0))
                ? (string.Create(CultureInfo.InvariantCulture, $"{Name} {uncertainty / other:F1} times as uncertain (off by {error:G3})"), false)
                : null;
        }
    }
}
