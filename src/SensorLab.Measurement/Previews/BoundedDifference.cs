using SensorLab.Profiles;

namespace SensorLab.Measurement.Previews;

/// <summary>Differences of figures that may be bounds.</summary>
internal static class BoundedDifference
{
    /// <summary>A figure less another, taken as independent.</summary>
    /// <param name="minuend">What is taken from; null where it is not known.</param>
    /// <param name="subtrahend">What is taken away; null where it is not known.</param>
    /// <returns>
    /// An estimate of two estimates, whose interval is as wide on each side as theirs in quadrature; a bound that keeps the
    /// far end of the estimate's 95 % interval where one is a bound; null where nothing follows.
    /// </returns>
    public static Figure? Of(Figure? minuend, Figure? subtrahend)
    {
        if (minuend is null || subtrahend is null)
        {
            return null;
        }

        if (minuend is { Value: { } from } && subtrahend is { Value: { } less })
        {
            double value = from - less;
            return Figure.Estimate(
                value,
                double.Hypot(minuend.StandardUncertainty!.Value, subtrahend.StandardUncertainty!.Value),
                value - double.Hypot(from - minuend.Lower95!.Value, subtrahend.Upper95!.Value - less),
                value + double.Hypot(minuend.Upper95!.Value - from, less - subtrahend.Lower95!.Value));
        }

        return (minuend.Lower95 ?? minuend.AtLeast) - (subtrahend.Upper95 ?? subtrahend.AtMost) is { } least ? Figure.LowerBound(least)
            : (minuend.Upper95 ?? minuend.AtMost) - (subtrahend.Lower95 ?? subtrahend.AtLeast) is { } most ? Figure.UpperBound(most)
            : null;
    }
}
