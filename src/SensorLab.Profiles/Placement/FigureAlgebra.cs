namespace SensorLab.Profiles.Placement;

/// <summary>Sums of independent figures, bounds included.</summary>
/// <remarks>
/// Standard uncertainties add in quadrature (JCGM 100:2008, equation 10, independent inputs, sensitivities ±1), degrees of
/// freedom by Welch and Satterthwaite (equation G.2b). The ends of the 95 % interval add in quadrature too, each side by
/// itself, so that an interval that is wider on one side, or widened for few degrees of freedom, stays so. A bound keeps
/// its kind; the uncertainty of what is added to it is not in it. A shifted or negated figure keeps its budget, a sum has none.
/// </remarks>
internal static class FigureAlgebra
{
    /// <summary>The figure moved by an exact amount.</summary>
    public static Figure Shifted(this Figure figure, double amount) => figure with
    {
        Value = figure.Value + amount,
        Lower95 = figure.Lower95 + amount,
        Upper95 = figure.Upper95 + amount,
        AtLeast = figure.AtLeast + amount,
        AtMost = figure.AtMost + amount,
        Budget = figure.Budget is { } b ? b with { Lower95 = b.Lower95 + amount, Upper95 = b.Upper95 + amount } : null,
    };

    /// <summary>The figure with its sign turned: a lower bound becomes an upper one.</summary>
    public static Figure Negated(this Figure figure) => figure with
    {
        Value = -figure.Value,
        Lower95 = -figure.Upper95,
        Upper95 = -figure.Lower95,
        AtLeast = -figure.AtMost,
        AtMost = -figure.AtLeast,
        Budget = figure.Budget is { } b ? b with { Lower95 = -b.Upper95, Upper95 = -b.Lower95 } : null,
    };

    /// <summary>The figure with an independent, normal uncertainty added; a bound stays as it is.</summary>
    public static Figure Widened(this Figure figure, double standardUncertainty) =>
        figure.Value is null || standardUncertainty == 0
            ? figure
            : figure.Plus(Figure.Normal(0, standardUncertainty))!;

    /// <summary>The sum of two independent figures; null where bounds of opposite kinds leave nothing to say.</summary>
    public static Figure? Plus(this Figure figure, Figure other)
    {
        if (figure.Value is { } value && other.Value is { } otherValue)
        {
            double sum = value + otherValue;
            double uncertainty = Root(figure.StandardUncertainty!.Value, other.StandardUncertainty!.Value);
            return Figure.Estimate(
                sum,
                uncertainty,
                sum - Root(value - figure.Lower95!.Value, otherValue - other.Lower95!.Value),
                sum + Root(figure.Upper95!.Value - value, other.Upper95!.Value - otherValue),
                DegreesOfFreedom(uncertainty, figure, other));
        }

        return (figure.Value ?? figure.AtLeast) + (other.Value ?? other.AtLeast) is { } atLeast ? Figure.LowerBound(atLeast)
            : (figure.Value ?? figure.AtMost) + (other.Value ?? other.AtMost) is { } atMost ? Figure.UpperBound(atMost)
            : null;
    }

    private static double Root(double a, double b) => Math.Sqrt((a * a) + (b * b));

    private static double? DegreesOfFreedom(double uncertainty, params ReadOnlySpan<Figure> parts)
    {
        double sum = 0;
        foreach (Figure part in parts)
        {
            sum += part.DegreesOfFreedom is { } own ? Math.Pow(part.StandardUncertainty!.Value, 4) / own : 0;
        }

        return sum > 0 ? Math.Pow(uncertainty, 4) / sum : null;
    }
}
