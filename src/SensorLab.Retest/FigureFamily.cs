using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>All figures of a comparison: how many there are, how many causes they share, and what uncertainty each difference has.</summary>
/// <remarks>
/// What follows from the same is judged as one. Noise is one draw a parameter and channel: read noise in e⁻ and in DN have
/// the same, spans follow from saturation, gain and read noise. Set-up and temperature are one draw a parameter and ISO,
/// whatever the channels; the meter is one draw an ISO, for every figure from middle grey on.
/// </remarks>
internal sealed class FigureFamily
{
    private readonly FigureTest[] _shared;
    private readonly SetScatter _sets;
    private readonly MeterScatter _meter;
    private readonly Dictionary<int, (IsoProfile Before, IsoProfile After)> _isos;
    private readonly FamilyFactors _factors = new();

    public FigureFamily(
        (SensorProfile Before, SensorProfile After) profiles,
        (IReadOnlyDictionary<FigureAddress, Figure> Before, IReadOnlyDictionary<FigureAddress, Figure> After) figures,
        RetestMargins margins,
        SetScatter sets,
        MeterScatter meter)
    {
        (_sets, _meter) = (sets, meter);
        _isos = profiles.Before.IsoProfiles.Join(profiles.After.IsoProfiles, b => b.Iso, a => a.Iso, (b, a) => (b, a)).ToDictionary(i => i.b.Iso, i => i);

        // Thousands of figures have a few names.
        var known = new Dictionary<string, (MarginUnit Unit, double? Margin)>(StringComparer.Ordinal);
        _shared = [.. figures.Before.Where(f => figures.After.ContainsKey(f.Key)).Select(f => Unjudged(f.Key, f.Value, figures.After[f.Key]))];

        FigureTest Unjudged(FigureAddress address, Figure before, Figure after)
        {
            if (!known.TryGetValue(address.Name, out (MarginUnit Unit, double? Margin) scale))
            {
                known[address.Name] = scale = (margins.UnitOf(address.Name), margins.Of(address.Name)?.Size);
            }

            return new FigureTest
            {
                Address = address,
                Before = before,
                After = after,
                Unit = scale.Unit,
                Margin = scale.Margin,
                Stated = FigureDifference.Of(before, after, address.Name, scale.Unit),
                Budget = DifferenceBudget.None,
            };
        }
    }

    /// <summary>The figures that both profiles hold, in the document's order, each with the interval that it is judged by.</summary>
    /// <remarks>
    /// Step down: what the intervals of all figures decide leaves the family, and what is open gets intervals for what is
    /// open, until nothing more is decided. A figure that its own interval decided errs no more.
    /// </remarks>
    public IReadOnlyList<FigureTest> Tests()
    {
        FigureTest[] tests = [.. _shared];
        int[] open = [.. Enumerable.Range(0, tests.Length).Where(i => tests[i].Margin is not null)];
        Judge(Enumerable.Range(0, tests.Length).Where(i => tests[i].Margin is null), Counted(open));
        bool isMoreDecided = true;
        while (isMoreDecided)
        {
            Judge(open, Counted(open));
            int[] rest = [.. open.Where(i => tests[i].Verdict() == RetestVerdict.Undecided)];
            isMoreDecided = rest.Length < open.Length;
            open = rest;
        }

        return tests;

        void Judge(IEnumerable<int> some, (int Noises, int Sets, int Readings) draws)
        {
            foreach (int i in some)
            {
                tests[i] = _shared[i] with { Budget = BudgetOf(_shared[i], draws) };
            }
        }
    }

    /// <summary>Independent draws that figures hang on: of noise, of set-up and temperature, of the meter; each 1 or more.</summary>
    private (int Noises, int Sets, int Readings) Counted(int[] figures)
    {
        FigureAddress[] addresses = [.. figures.Select(i => _shared[i].Address)];
        FigureAddress[] draws = [.. addresses.Select(DrawOf).OfType<FigureAddress>().Distinct()];
        return (
            Math.Max(1, draws.Length),
            Math.Max(1, draws.Select(d => (d.Iso, d.Name)).Distinct().Count()),
            Math.Max(1, addresses.Where(a => FigureName.IsMeterTied(a.Name)).Select(a => a.Iso).Distinct().Count()));
    }

    /// <summary>The draw of noise that a figure brings into the family; null where others bring it.</summary>
    private static FigureAddress? DrawOf(FigureAddress address) => address.Name switch
    {
        "readNoiseElectron" => address with { Name = "readNoiseDn" },
        "saturationElectron" or "firstClipDn" => address with { Name = "saturationDn" },
        _ when address.Name.EndsWith("spanEv", StringComparison.Ordinal) => null,
        _ when address.Name.StartsWith("previews.", StringComparison.Ordinal) => address,
        _ when FigureName.IsMeterTied(address.Name) => new FigureAddress(address.Iso, null, "middleGreyDn"),
        _ => address,
    };

    private DifferenceBudget BudgetOf(FigureTest test, (int Noises, int Sets, int Readings) draws) =>
        test.Stated is { } difference ? new DifferenceBudget(PartsOf(test, difference, draws)) : DifferenceBudget.None;

    private IEnumerable<DifferencePart> PartsOf(FigureTest test, FigureDifference difference, (int Noises, int Sets, int Readings) draws)
    {
        yield return new DifferencePart(DifferenceCause.NoiseBefore, difference.Before.StandardUncertainty, difference.Before.DegreesOfFreedom, draws.Noises, factors: _factors);
        yield return new DifferencePart(DifferenceCause.NoiseAfter, difference.After.StandardUncertainty, difference.After.DegreesOfFreedom, draws.Noises, factors: _factors);
        yield return _sets.PartOf(test.Address.Name, draws.Sets);
        if (_meter.IsKnown && FigureName.IsMeterTied(test.Address.Name))
        {
            (IsoProfile before, IsoProfile after) = _isos[test.Address.Iso];
            yield return _meter.PartOf(before, after, draws.Readings).Scaled(PerEv(test.Unit, difference));
        }
    }

    /// <summary>What a stop of middle grey makes of a difference, in the margin's unit.</summary>
    private static double PerEv(MarginUnit unit, FigureDifference difference) => unit switch
    {
        MarginUnit.Ev => 1,
        MarginUnit.Relative => Math.Log(2),
        _ => Math.Log(2) * difference.Before.Value,
    };
}
