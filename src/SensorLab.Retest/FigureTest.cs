using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>A pair of figures, judged against its margin by the interval that is printed.</summary>
internal sealed record FigureTest
{
    /// <summary>A bound speaks for a change only where the other set's estimate is this many of its uncertainties away too.</summary>
    private const double BoundDeviations = 5;

    public required FigureAddress Address { get; init; }

    public required Figure Before { get; init; }

    public required Figure After { get; init; }

    public required MarginUnit Unit { get; init; }

    public double? Margin { get; init; }

    public FigureDifference? Stated { get; init; }

    /// <summary>The uncertainty of the difference, with its parts.</summary>
    public required DifferenceBudget Budget { get; init; }

    /// <summary>Changed where the whole interval lies beyond the margin, equivalent where it lies within, else undecided.</summary>
    public RetestVerdict Verdict()
    {
        if (Margin is not { } margin)
        {
            return RetestVerdict.NotJudged;
        }

        if (Stated is not { } stated)
        {
            Figure? bound = FigureDifference.Bound(Moved(Before), Moved(After), Address.Name, Unit);
            return bound?.AtLeast > margin || bound?.AtMost < -margin ? RetestVerdict.Changed : RetestVerdict.Undecided;
        }

        double size = Math.Abs(stated.Value);
        return size - Budget.Half > margin ? RetestVerdict.Changed
            : size + Budget.Half <= margin ? RetestVerdict.Equivalent
            : RetestVerdict.Undecided;
    }

    /// <summary>The published difference.</summary>
    public Figure? Difference() => Stated is { } stated
        ? Figure.Estimate(stated.Value, Budget.StandardUncertainty, stated.Value - Budget.Half, stated.Value + Budget.Half, Budget.DegreesOfFreedom)
        : FigureDifference.Bound(Before, After, Address.Name, Unit);

    /// <summary>An estimate moved towards the other set's bound.</summary>
    private Figure Moved(Figure figure)
    {
        if (figure is not { Value: { } value, StandardUncertainty: { } u })
        {
            return figure;
        }

        Figure other = ReferenceEquals(figure, Before) ? After : Before;
        return figure with { Value = value + ((other.AtLeast is not null ? BoundDeviations : -BoundDeviations) * u) };
    }
}
