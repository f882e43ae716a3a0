using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>What sets of an unchanged body differ by beyond noise, the meter apart: set-up and temperature.</summary>
/// <remarks>
/// One variance a kind of figure, shared by channels and ISOs. It starts from the protocols' typical value A with ν₀ = 8
/// degrees of freedom (known to a quarter of itself) and is moved by the repeats: (ν₀A² + ν·(s² − u²)₊)/(ν₀ + ν), with s² the
/// scatter of the sets, u² what noise has in it, ν the number of independent draws. Channels of an ISO share lamp and
/// temperature and count as one; ISOs count each for itself. A difference of two sets holds it twice.
/// </remarks>
internal sealed class SetScatter
{
    private readonly Dictionary<string, (double Excess, double Freedom)> _shown = new(StringComparer.Ordinal);
    private readonly RetestMargins _margins;
    private readonly FamilyFactors _factors = new();
    private readonly Dictionary<(string Name, int Family), DifferencePart> _parts = [];

    private SetScatter(RetestMargins margins) => _margins = margins;

    /// <summary>Learns from groups of sets of one body and firmware.</summary>
    /// <param name="groups">Figures of the sets of each group, two or more: a group of one teaches nothing.</param>
    /// <param name="margins">Tells the scale of each figure.</param>
    public static SetScatter Of(IReadOnlyList<IReadOnlyList<IReadOnlyDictionary<FigureAddress, Figure>>> groups, RetestMargins margins)
    {
        var found = new SetScatter(margins);
        IEnumerable<(FigureAddress Address, Sample Sample)> samples = groups
            .SelectMany(g => g[0].Keys.Where(a => !FigureName.IsMeterTied(a.Name)).Select(a => (Address: a, Sample: found.SampleOf(g, a))))
            .Where(s => s.Sample is not null)
            .Select(s => (s.Address, s.Sample!.Value));
        foreach (var kind in samples.GroupBy(s => s.Address.Name))
        {
            Sample[] isos = [.. kind.GroupBy(s => s.Address.Iso).Select(iso => new Sample(
                iso.Average(s => s.Sample.Squares), iso.Average(s => s.Sample.Noise), iso.Average(s => s.Sample.Freedom)))];
            double freedom = isos.Sum(i => i.Freedom);
            found._shown[kind.Key] = (Math.Max(0, isos.Sum(i => i.Squares - (i.Noise * i.Freedom)) / freedom), freedom);
        }

        return found;
    }

    /// <summary>The part of a difference of a figure.</summary>
    /// <param name="name">The figure; one that the meter has a part in goes by the typical value of what else is in it.</param>
    /// <param name="family">How many independent draws the comparison looks at.</param>
    public DifferencePart PartOf(string name, int family)
    {
        if (_parts.TryGetValue((name, family), out DifferencePart known))
        {
            return known;
        }

        double typical = TypicalOf(name, _margins.UnitOf(name));
        (double excess, double freedom) = _shown.GetValueOrDefault(name);
        double variance = ((TypicalScatter.DegreesOfFreedom * typical * typical) + (freedom * excess)) / (TypicalScatter.DegreesOfFreedom + freedom);
        return _parts[(name, family)] = new DifferencePart(DifferenceCause.SetToSet, Math.Sqrt(2 * variance), TypicalScatter.DegreesOfFreedom + freedom, family, factors: _factors);
    }

    private Sample? SampleOf(IReadOnlyList<IReadOnlyDictionary<FigureAddress, Figure>> group, FigureAddress address)
    {
        MarginUnit unit = _margins.UnitOf(address.Name);
        (double Value, double Uncertainty)[] sets =
            [.. group.Where(s => s.ContainsKey(address)).Select(s => FigureDifference.OnScale(s[address], address.Name, unit)).OfType<(double, double)>()];
        if (sets.Length < 2)
        {
            return null;
        }

        double mean = sets.Average(s => s.Value);
        return new Sample(sets.Sum(s => (s.Value - mean) * (s.Value - mean)), sets.Average(s => s.Uncertainty * s.Uncertainty), sets.Length - 1);
    }

    /// <summary>The typical value on the scale on which differences of a figure are counted.</summary>
    private static double TypicalOf(string name, MarginUnit unit)
    {
        double share = name switch
        {
            "gainElectronPerDn" => TypicalScatter.Gain,
            "readNoiseElectron" or "readNoiseDn" => TypicalScatter.ReadNoise,
            "saturationDn" or "firstClipDn" => TypicalScatter.Saturation,
            "saturationElectron" => double.Hypot(TypicalScatter.Saturation, TypicalScatter.Gain),
            _ when name.EndsWith("spanEv", StringComparison.Ordinal) || name.EndsWith("perPixel", StringComparison.Ordinal) => TypicalScatter.ReadNoise,
            _ when FigureName.IsEv(name) => TypicalScatter.Saturation,
            _ => 0,
        };
        return name == "blackLevelDn" ? (unit == MarginUnit.Dn ? TypicalScatter.BlackDn : 0) : unit switch
        {
            MarginUnit.Ev => share / Math.Log(2),
            MarginUnit.Relative => share,
            _ => 0,
        };
    }

    /// <param name="Squares">Sum of squares about the group's mean.</param>
    /// <param name="Noise">Mean variance that the sets state.</param>
    /// <param name="Freedom">Sets less one.</param>
    private readonly record struct Sample(double Squares, double Noise, double Freedom);
}
