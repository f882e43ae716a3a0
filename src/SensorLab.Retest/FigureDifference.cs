using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>The difference of one figure between two sets, in the margin's unit.</summary>
/// <remarks>
/// The two sets are independent: standard uncertainties add in quadrature (JCGM 100:2008, equation 10), degrees of freedom
/// by Welch and Satterthwaite (equation G.2b). The fixed pattern's sampling is in both, although the same pixels have the
/// same pattern: the difference is surer than it says, never less.
/// </remarks>
/// <param name="Value">After less before.</param>
/// <param name="BeforeUncertainty">The earlier set's part of the standard uncertainty.</param>
/// <param name="AfterUncertainty">The later set's part.</param>
/// <param name="DegreesOfFreedom">Effective degrees of freedom of both together; infinite where unlimited.</param>
internal readonly record struct FigureDifference(double Value, double BeforeUncertainty, double AfterUncertainty, double DegreesOfFreedom)
{
    public double Variance => (BeforeUncertainty * BeforeUncertainty) + (AfterUncertainty * AfterUncertainty);

    /// <summary>The difference of two estimates; null where one is a bound, or a ratio has no sense.</summary>
    public static FigureDifference? Of(Figure before, Figure after, string name, MarginUnit unit)
    {
        if (before is not { Value: { } b, StandardUncertainty: { } ub } || after is not { Value: { } a, StandardUncertainty: { } ua })
        {
            return null;
        }

        double freedom = Freedom(ub, before.DegreesOfFreedom, ua, after.DegreesOfFreedom);
        if (IsPlain(name, unit))
        {
            return new FigureDifference(a - b, ub, ua, freedom);
        }

        if (b <= 0 || a <= 0)
        {
            return null;
        }

        double ratio = a / b;
        return unit == MarginUnit.Ev
            ? new FigureDifference(Math.Log2(ratio), ub / b / Math.Log(2), ua / a / Math.Log(2), Freedom(ub / b, before.DegreesOfFreedom, ua / a, after.DegreesOfFreedom))
            : new FigureDifference(ratio - 1, ratio * ub / b, ua / b, Freedom(ratio * ub, before.DegreesOfFreedom, ua, after.DegreesOfFreedom));
    }

    /// <summary>A figure on the scale on which its differences are counted, with its standard uncertainty: logarithms for ratios.</summary>
    public static (double Value, double Uncertainty)? OnScale(Figure figure, string name, MarginUnit unit)
    {
        if (figure is not { Value: { } value, StandardUncertainty: { } u })
        {
            return null;
        }

        if (IsPlain(name, unit))
        {
            return (value, u);
        }

        double scale = unit == MarginUnit.Ev ? Math.Log(2) : 1;
        return value > 0 ? (Math.Log(value) / scale, u / value / scale) : null;
    }

    /// <summary>What a bound leaves of a difference: a bound itself, or null.</summary>
    public static Figure? Bound(Figure before, Figure after, string name, MarginUnit unit)
    {
        double? least = Difference(before.Value ?? before.AtMost, after.Value ?? after.AtLeast);
        double? most = Difference(before.Value ?? before.AtLeast, after.Value ?? after.AtMost);
        return least is { } from ? Figure.LowerBound(from) : most is { } to ? Figure.UpperBound(to) : null;

        double? Difference(double? b, double? a)
        {
            double? difference = IsPlain(name, unit) ? a - b : unit == MarginUnit.Ev ? (a is { } x && b is { } y ? Math.Log2(x / y) : null) : (a / b) - 1;
            return difference is { } finite && double.IsFinite(finite) ? difference : null;
        }
    }

    /// <summary>Differences of EV figures and of codes are plain; of signals in EV and of shares, ratios.</summary>
    private static bool IsPlain(string name, MarginUnit unit) =>
        unit == MarginUnit.Dn || (unit == MarginUnit.Ev && FigureName.IsEv(name));

    private static double Freedom(double first, double? firstFreedom, double second, double? secondFreedom)
    {
        double fourths = (Math.Pow(first, 4) / (firstFreedom ?? double.PositiveInfinity)) + (Math.Pow(second, 4) / (secondFreedom ?? double.PositiveInfinity));
        return fourths > 0 ? Math.Pow((first * first) + (second * second), 2) / fourths : double.PositiveInfinity;
    }
}
