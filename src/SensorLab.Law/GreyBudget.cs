using SensorLab.Profiles;

namespace SensorLab.Law;

/// <summary>What moves middle grey from set to set, in EV: the meter, the shutter, the lamp, the diaphragm.</summary>
/// <remarks>
/// Every figure from middle grey on shares it. The set tells of the shutter where levels at like times scatter about their
/// exposures; the meter's step tells the most that a reading can be off. The rest is the protocols' typical value.
/// </remarks>
internal sealed class GreyBudget
{
    /// <summary>Steps that readings lie apart where the step does not explain them: readings at both edges of the zero lie one apart, the shutter's scatter in them.</summary>
    private const double BeyondStep = 1.5;

    /// <summary>Levels with a signal above this share of the brightest tell of exposure and not of black.</summary>
    private const double LowestShare = 0.02;

    /// <summary>Levels up to this share of the brightest are free of clipping and of most bends.</summary>
    private const double HighestShare = 0.5;

    /// <summary>Levels of one light from which their scatter is told: two degrees of freedom.</summary>
    private const int FewestLevels = 3;

    private GreyBudget(IReadOnlyList<Part> parts, double rectangleEv) => (Parts, RectangleEv) = (parts, rectangleEv);

    /// <summary>The parts, in EV.</summary>
    public IReadOnlyList<Part> Parts { get; }

    /// <summary>Half of the meter's step where one reading was taken: its part is rectangular. 0 elsewhere.</summary>
    public double RectangleEv { get; }

    /// <summary>Of an ISO; without a part where middle grey is by definition.</summary>
    /// <param name="iso">The ISO's profile.</param>
    /// <param name="meterStepEv">The meter's step in EV; null where middle grey was not metered.</param>
    public static GreyBudget Of(IsoProfile iso, double? meterStepEv)
    {
        LevelRecord[] metered = [.. iso.Levels.Where(l => l.Role == RoleName.Metered)];
        if (meterStepEv is not { } step || metered.Length == 0)
        {
            return new GreyBudget([], 0);
        }

        int readings = MeterReadings.Count(iso);
        double frames = metered.Sum(l => l.Frames);
        double shortest = metered.Min(l => l.ExposureSeconds);
        Part meter = MeterOf(iso, step, readings);
        Part shutter = LevelScatter(iso, metered) is { } levels
            ? levels with { Uncertainty = levels.Uncertainty / Math.Sqrt(readings) }
            : new Part(BudgetSource.Shutter, EvOf(TypicalScatter.Shutter) / Math.Sqrt(readings), TypicalScatter.DegreesOfFreedom, BudgetOrigin.Protocol);
        return new GreyBudget(
            [
                meter,
                shutter with { Uncertainty = double.Hypot(shutter.Uncertainty, EvOf(TypicalScatter.ShutterSeconds / shortest)) },
                new Part(BudgetSource.Light, EvOf(TypicalScatter.Light) / Math.Sqrt(readings), TypicalScatter.DegreesOfFreedom, BudgetOrigin.Protocol),
                new Part(BudgetSource.Aperture, EvOf(TypicalScatter.Aperture) / Math.Sqrt(frames), TypicalScatter.DegreesOfFreedom, BudgetOrigin.Protocol),
            ],
            readings == 1 && meter.From == BudgetOrigin.Protocol ? step / 2 : 0);
    }

    /// <summary>A relative deviation in EV.</summary>
    public static double EvOf(double share) => share / Math.Log(2);

    /// <summary>Rectangular over a step, unless readings lie farther apart than that explains: then their own scatter stands.</summary>
    private static Part MeterOf(IsoProfile iso, double step, int readings)
    {
        double[] own = [.. MeterReadings.Ev(iso)];
        if (own.Length > 1 && own.Max() - own.Min() > BeyondStep * step)
        {
            double mean = own.Average();
            double variance = own.Sum(r => (r - mean) * (r - mean)) / (own.Length - 1);
            return new Part(BudgetSource.Meter, Math.Sqrt(variance / own.Length), own.Length - 1, BudgetOrigin.Set);
        }

        return new Part(BudgetSource.Meter, step / Math.Sqrt(12 * readings), double.PositiveInfinity, BudgetOrigin.Protocol);
    }

    /// <summary>How a level's light scatters about its exposure time at times like the metered ones; null where too few levels tell.</summary>
    private static Part? LevelScatter(IsoProfile iso, LevelRecord[] metered)
    {
        double top = iso.Levels.Where(l => RoleName.IsLit(l.Role)).Max(l => MeterReadings.SignalEv(iso, l));
        double squares = 0;
        double freedom = 0;
        foreach (var light in iso.Levels
            .Where(l => l.Role == RoleName.Bracket && l.ExposureSeconds > 0 && metered.Any(m => ShutterLikeness.IsAlike(m.ExposureSeconds, l.ExposureSeconds)))
            .Select(l => (l.LightStep, Ev: MeterReadings.SignalEv(iso, l), Off: MeterReadings.SignalEv(iso, l) - Math.Log2(l.ExposureSeconds)))
            .Where(l => l.Ev > top + Math.Log2(LowestShare) && l.Ev < top + Math.Log2(HighestShare))
            .GroupBy(l => l.LightStep)
            .Where(g => g.Count() >= FewestLevels))
        {
            double mean = light.Average(l => l.Off);
            squares += light.Sum(l => (l.Off - mean) * (l.Off - mean));
            freedom += light.Count() - 1;
        }

        return freedom > 0 ? new Part(BudgetSource.Shutter, Math.Sqrt(squares / freedom), freedom, BudgetOrigin.Set) : null;
    }

    /// <param name="Source">One of <see cref="BudgetSource"/>.</param>
    /// <param name="Uncertainty">Standard uncertainty: here in EV, in a figure's budget in its unit.</param>
    /// <param name="DegreesOfFreedom">What it rests on.</param>
    /// <param name="From">One of <see cref="BudgetOrigin"/>.</param>
    internal readonly record struct Part(string Source, double Uncertainty, double DegreesOfFreedom, string From);
}
