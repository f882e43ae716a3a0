using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Isos;

/// <summary>The figures of an ISO that the laws over all ISOs are about: green's, both greens on the mean.</summary>
internal static class IsoLaw
{
    /// <summary>Gain in e⁻/DN; null where it was not measured.</summary>
    public static Estimate? GainOf(IsoEvidence evidence) => Mean(evidence, c => c.GainElectronPerDn);

    /// <summary>Read noise in e⁻; null where it was not measured.</summary>
    public static Estimate? ReadNoiseOf(IsoEvidence evidence) => Mean(evidence, c => c.ReadNoiseElectron);

    private static Estimate? Mean(IsoEvidence evidence, Func<ChannelProfile, Figure?> figure)
    {
        Figure?[] figures = [.. evidence.Greens.Select(c => figure(evidence.Profile.Channels[c]))];
        return figures.All(f => f is { Value: not null, StandardUncertainty: not null })
            ? new Estimate(
                figures.Average(f => f!.Value!.Value),
                Math.Sqrt(figures.Sum(f => Math.Pow(f!.StandardUncertainty!.Value, 2))) / figures.Length)
            : null;
    }
}
