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
    private readonly IReadOnlyDictionary<FigureAddress, Figure> _before;
    private readonly IReadOnlyDictionary<FigureAddress, Figure> _after;
    private readonly RetestMargins _margins;
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
        (_before, _after) = figures;
        (_margins, _sets, _meter) = (margins, sets, meter);
        _isos = profiles.Before.IsoProfiles.Join(profiles.After.IsoProfiles, b => b.Iso, a => a.Iso, (b, a) => (b, a)).ToDictionary(i => i.b.Iso, i => i);
    }

    /// <summary>The figures that both profiles hold, in the document's order, each with the interval that it is judged by.</summary>
    /// <remarks>
    /// Step down: what the intervals of all figures decide leaves the family, and what is open gets intervals for what is
    /// open, until nothing more is decided. A figure that its own interval decided errs no more.
    /// </remarks>
    public IEnumerable<FigureTest> Tests()
    {
        FigureAddress[] shared = [.. _before.Keys.Where(_after.ContainsKey)];
        FigureAddress[] open = [.. shared.Where(a => _margins.Of(a.Name) is not null)];
        var tests = shared.Except(open).ToDictionary(a => a, a => TestOf(a, Counted(open)));
        bool isMoreDecided = true;
        while (isMoreDecided)
        {
            (int, int, int) counts = Counted(open);
            foreach (FigureAddress address in open)
            {
                tests[address] = TestOf(address, counts);
            }

            FigureAddress[] rest = [.. open.Where(a => tests[a].Verdict() == RetestVerdict.Undecided)];
            isMoreDecided = rest.Length < open.Length;
            open = rest;
        }

        return shared.Select(a => tests[a]);
    }

    /// <summary>Independent draws that figures hang on: of noise, of set-up and temperature, of the meter; each 1 or more.</summary>
    private static (int Noises, int Sets, int Readings) Counted(FigureAddress[] figures)
    {
        FigureAddress[] draws = [.. figures.Select(DrawOf).OfType<FigureAddress>().Distinct()];
        return (
            Math.Max(1, draws.Length),
            Math.Max(1, draws.Select(d => (d.Iso, d.Name)).Distinct().Count()),
            Math.Max(1, figures.Where(a => FigureName.IsMeterTied(a.Name)).Select(a => a.Iso).Distinct().Count()));
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

    private FigureTest TestOf(FigureAddress address, (int Noises, int Sets, int Readings) draws)
    {
        (Figure before, Figure after) = (_before[address], _after[address]);
        MarginUnit unit = _margins.UnitOf(address.Name);
        FigureDifference? stated = FigureDifference.Of(before, after, address.Name, unit);
        return new FigureTest
        {
            Address = address,
            Before = before,
            After = after,
            Unit = unit,
            Margin = _margins.Of(address.Name)?.Size,
            Stated = stated,
            Budget = new DifferenceBudget(stated is { } difference ? [.. PartsOf(address, difference, draws)] : []),
        };
    }

    private IEnumerable<DifferencePart> PartsOf(FigureAddress address, FigureDifference difference, (int Noises, int Sets, int Readings) draws)
    {
        yield return new DifferencePart(DifferenceCause.NoiseBefore, difference.Before.StandardUncertainty, difference.Before.DegreesOfFreedom, draws.Noises, factors: _factors);
        yield return new DifferencePart(DifferenceCause.NoiseAfter, difference.After.StandardUncertainty, difference.After.DegreesOfFreedom, draws.Noises, factors: _factors);
        yield return _sets.PartOf(address.Name, draws.Sets);
        if (FigureName.IsMeterTied(address.Name) && _meter.IsKnown)
        {
            (IsoProfile before, IsoProfile after) = _isos[address.Iso];
            yield return _meter.PartOf(before, after, draws.Readings).Scaled(PerEv(_margins.UnitOf(address.Name), difference));
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
