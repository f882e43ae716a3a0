using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>The difference of one figure between two sets, in the margin's unit.</summary>
/// <remarks>
/// The two sets are independent. The fixed pattern's sampling is in both, although the same pixels have the same pattern:
/// the difference is surer than it says, never less.
/// </remarks>
/// <param name="Value">After less before.</param>
/// <param name="Before">The earlier set's noise in it.</param>
/// <param name="After">The later set's.</param>
internal readonly record struct FigureDifference(double Value, Estimate Before, Estimate After)
{
    /// <summary>The difference of two estimates; null where one is a bound, or a ratio has no sense.</summary>
    public static FigureDifference? Of(Figure before, Figure after, string name, MarginUnit unit)
    {
        if (before is not { Value: { } b, StandardUncertainty: { } ub } || after is not { Value: { } a, StandardUncertainty: { } ua })
        {
            return null;
        }

        if (IsPlain(name, unit))
        {
            return With(a - b, ub, ua);
        }

        if (b <= 0 || a <= 0)
        {
            return null;
        }

        double ratio = a / b;
        return unit == MarginUnit.Ev
            ? With(Math.Log2(ratio), ub / b / Math.Log(2), ua / a / Math.Log(2))
            : With(ratio - 1, ratio * ub / b, ua / b);

        FigureDifference With(double value, double noiseBefore, double noiseAfter) => new(
            value,
            new Estimate(b, noiseBefore, before.DegreesOfFreedom ?? double.PositiveInfinity),
            new Estimate(a, noiseAfter, after.DegreesOfFreedom ?? double.PositiveInfinity));
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
}
