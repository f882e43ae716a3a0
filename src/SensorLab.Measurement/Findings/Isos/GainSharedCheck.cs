using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Measurement.Findings.Isos;

/// <summary>gain-shared: two neighbouring ISOs with one gain and another middle grey.</summary>
internal sealed class GainSharedCheck : IIsoSeriesCheck
{
    public IEnumerable<Finding> Examine(IReadOnlyList<IsoEvidence> isos) => isos
        .Zip(isos.Skip(1))
        .Where(pair => AreShared(pair.First, pair.Second))
        .Select(pair => FlawFinding.Note(
            FindingCode.GainShared,
            pair.Second.Iso,
            null,
            string.Empty,
            $"ISO {pair.First.Iso} and ISO {pair.Second.Iso} are one setting of the sensor that the meter alone exposes differently.",
            "Use either: what the one gains in highlights it loses in shadows. Nothing to correct."));

    /// <summary>Whether two ISOs have the same gain, within 2 % and their uncertainty, though the dial says otherwise.</summary>
    internal static bool AreShared(IsoEvidence first, IsoEvidence second)
    {
        const double SameGain = 0.02;
        const double OtherGrey = 0.2;
        if (IsoLaw.GainOf(first) is not { } a || IsoLaw.GainOf(second) is not { } b)
        {
            return false;
        }

        double off = Math.Log(a.Value / b.Value);
        double uncertainty = double.Hypot(a.StandardUncertainty / a.Value, b.StandardUncertainty / b.Value);
        double? firstGrey = first.Profile.Channels[first.Greens[0]].MiddleGreyDn?.Value;
        double? secondGrey = second.Profile.Channels[second.Greens[0]].MiddleGreyDn?.Value;
        bool otherGrey = first.Grey == GreyMethod.Metered && firstGrey is { } g && secondGrey is { } h && Math.Abs(Math.Log2(g / h)) > OtherGrey;
        return Math.Abs(off) < Math.Max(SameGain, 2 * uncertainty) && otherGrey;
    }
}
