using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Figures;

/// <summary>What becomes of some figures under a finding.</summary>
/// <param name="Code">The finding's code.</param>
/// <param name="Kinds">The figures.</param>
/// <param name="Fate">What becomes of them.</param>
internal sealed record FindingConsequence(string Code, FigureKinds Kinds, FigureFate Fate)
{
    /// <summary>Figures that are widened by an amount in their own unit, and not by a share of themselves.</summary>
    private const FigureKinds OnScales = FigureKinds.Above | FigureKinds.FirstClip | FigureKinds.Shadows | FigureKinds.BandsEnd | FigureKinds.Black;

    /// <summary>Which findings of the code have it: notes are mostly harmless.</summary>
    public Func<Finding, bool> Holds { get; init; } = f => f.Severity != FindingSeverity.Note;

    /// <summary>From what size on, at an ISO.</summary>
    public Func<Finding, IsoProfile, bool> IsLarge { get; init; } = (_, _) => true;

    /// <summary>
    /// By what share a figure may be off, as a standard uncertainty, for <see cref="FigureFate.Widened"/>: of itself, of a
    /// light where it counts stops; in DN for black.
    /// </summary>
    public Func<Finding, IsoProfile, double> Share { get; init; } = (f, _) => f.Size ?? 0;

    /// <summary>Whether the share is that of the noise without light, which moves a shadow end the less the higher its criterion is.</summary>
    public bool IsOfDarkNoise { get; init; }

    /// <summary>Whether all channels have it where the finding names one: a response is the sensor's.</summary>
    public bool IsOfAllChannels { get; init; }

    /// <summary>What is left of a figure.</summary>
    /// <param name="kind">What it is.</param>
    /// <param name="figure">The figure; null where it is absent already.</param>
    /// <param name="finding">A finding that has the consequence.</param>
    /// <param name="iso">The ISO as it was fitted.</param>
    /// <param name="snr">The criterion of a shadow end; null for any other figure.</param>
    /// <returns>Null where it may not be used: a bound on the other side tells nothing either.</returns>
    public Figure? Left(FigureKinds kind, Figure? figure, Finding finding, IsoProfile iso, double? snr) => Fate switch
    {
        _ when figure is null || !Kinds.HasFlag(kind) => figure,
        FigureFate.Absent => null,
        FigureFate.AtMost => (figure.Upper95 ?? figure.AtMost) is { } upper ? Figure.UpperBound(upper) : null,
        FigureFate.AtLeast => (figure.Lower95 ?? figure.AtLeast) is { } lower ? Figure.LowerBound(lower) : null,
        _ => figure.Value is { } value ? Wider(figure, UnitOf(kind, value) * Share(finding, iso) * (IsOfDarkNoise && snr is { } criterion ? DarkPartAt(criterion, iso) : 1), OnScales.HasFlag(kind) ? double.NegativeInfinity : 0) : figure,
    };

    /// <summary>By what share the signal at a criterion moves with the noise without light.</summary>
    /// <remarks>S = q²/2·(1 + √(1 + 4σ²/q²)) for q the criterion and σ that noise, both in e⁻: d ln S/d ln σ = (r − 1)/r with r the root.</remarks>
    private static double DarkPartAt(double snr, IsoProfile iso)
    {
        double noise = iso.Channels.Max(c => double.Hypot(c.ReadNoiseElectron?.Value ?? 0, c.DsnuElectron?.Value ?? 0));
        double root = Math.Sqrt(1 + (4 * noise * noise / (snr * snr)));
        return (root - 1) / root;
    }

    private static double UnitOf(FigureKinds kind, double value) =>
        kind == FigureKinds.Black ? 1 : OnScales.HasFlag(kind) ? 1 / Math.Log(2) : Math.Abs(value);

    /// <summary>The figure with one more independent standard uncertainty, of a normal distribution.</summary>
    private static Figure Wider(Figure figure, double standardUncertainty, double lowest)
    {
        double value = figure.Value!.Value;
        double own = figure.StandardUncertainty!.Value;
        double total = double.Hypot(own, standardUncertainty);
        if (total == own)
        {
            return figure;
        }

        double reach = Figure.NormalFactor95 * standardUncertainty;
        double? degrees = own > 0 ? figure.DegreesOfFreedom * Math.Pow(total / own, 4) : null;
        return Figure.Estimate(
            value,
            total,
            Math.Max(lowest, value - double.Hypot(value - figure.Lower95!.Value, reach)),
            value + double.Hypot(figure.Upper95!.Value - value, reach),
            degrees is { } rest ? Propagation.Published(rest) : null) with
        {
            Budget = figure.Budget is { } budget ? Wider(budget, value, standardUncertainty, lowest) : null,
        };
    }

    /// <summary>The budget with as much in what this set's sampling has of it.</summary>
    private static FigureBudget Wider(FigureBudget budget, double value, double standardUncertainty, double lowest)
    {
        double reach = Figure.NormalFactor95 * standardUncertainty;
        return budget with
        {
            StandardUncertainty = double.Hypot(budget.StandardUncertainty, standardUncertainty),
            Lower95 = Math.Max(lowest, value - double.Hypot(value - budget.Lower95, reach)),
            Upper95 = value + double.Hypot(budget.Upper95 - value, reach),
            Parts = [.. budget.Parts.Select((p, i) => i == 0 ? p with { StandardUncertainty = double.Hypot(p.StandardUncertainty, standardUncertainty) } : p)],
        };
    }
}

/// <summary>What becomes of a figure that a finding says is off.</summary>
internal enum FigureFate
{
    /// <summary>It is left out.</summary>
    Absent,

    /// <summary>Its interval's upper end stands as an upper bound.</summary>
    AtMost,

    /// <summary>Its interval's lower end stands as a lower bound.</summary>
    AtLeast,

    /// <summary>Its uncertainty carries what the cause may have done.</summary>
    Widened,
}
