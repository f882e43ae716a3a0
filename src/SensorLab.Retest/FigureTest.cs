using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>A pair of figures with what is needed to test it against its margin.</summary>
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

    /// <summary>Variance of the difference, repeats included.</summary>
    public double Variance { get; init; }

    public double DegreesOfFreedom { get; init; } = double.PositiveInfinity;

    private double Uncertainty => Math.Sqrt(Variance);

    public static FigureTest Of(FigureAddress address, Figure before, Figure after, RetestMargins margins, Reproducibility reproducibility)
    {
        Margin? margin = margins.Of(address.Name);
        MarginUnit unit = margins.UnitOf(address.Name);
        FigureDifference? stated = FigureDifference.Of(before, after, address.Name, unit);
        return new FigureTest
        {
            Address = address,
            Before = before,
            After = after,
            Unit = unit,
            Margin = margin?.Size,
            Stated = stated,
            Variance = (stated?.Variance ?? 0) + reproducibility.VarianceOf(address.Name),
            DegreesOfFreedom = stated is { } difference ? reproducibility.FreedomOf(address.Name, difference) : double.PositiveInfinity,
        };
    }

    /// <summary>The published difference.</summary>
    public Figure? Difference()
    {
        if (Stated is not { } stated)
        {
            return FigureDifference.Bound(Before, After, Address.Name, Unit);
        }

        double half = StudentTail.Factor95(DegreesOfFreedom) * Uncertainty;
        return Figure.Estimate(stated.Value, Uncertainty, stated.Value - half, stated.Value + half, double.IsFinite(DegreesOfFreedom) ? DegreesOfFreedom : null);
    }

    /// <summary>The largest probability of such a difference where the true one is within the margin.</summary>
    public double ChangeProbability()
    {
        double margin = Margin!.Value;
        if (Stated is { } stated)
        {
            double size = Math.Abs(stated.Value);
            return Math.Min(1, StudentTail.Above(Deviations(size - margin), DegreesOfFreedom) + StudentTail.Above(Deviations(size + margin), DegreesOfFreedom));
        }

        Figure? bound = FigureDifference.Bound(Moved(Before), Moved(After), Address.Name, Unit);
        return bound?.AtLeast > margin || bound?.AtMost < -margin ? 0 : 1;
    }

    /// <summary>The largest probability of a difference so small where the true one is beyond the margin: two one-sided tests.</summary>
    public double EquivalenceProbability() =>
        Stated is { } stated ? StudentTail.Above(Deviations(Margin!.Value - Math.Abs(stated.Value)), DegreesOfFreedom) : 1;

    private double Deviations(double distance) =>
        Uncertainty > 0 ? distance / Uncertainty : distance > 0 ? double.PositiveInfinity : double.NegativeInfinity;

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
