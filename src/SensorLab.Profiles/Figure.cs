using System.Text.Json.Serialization;

namespace SensorLab.Profiles;

/// <summary>
/// One published figure: an estimate with its standard uncertainty and 95 % interval, or a bound marked as a bound.
/// A figure that was not measured is absent (null), and a finding says why.
/// </summary>
/// <remarks>JCGM 100:2008 (GUM), clauses 2.3.1 and 6.2; the unit is in the name of the property that holds the figure.</remarks>
public sealed record Figure
{
    /// <summary>Half of a normal distribution's 95 % interval over its standard uncertainty (JCGM 100:2008, G.6.6).</summary>
    public const double NormalFactor95 = 1.959963984540054;

    /// <summary>The estimate; null for a bound.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? Value { get; init; }

    /// <summary>Standard uncertainty of the estimate, in its unit.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? StandardUncertainty { get; init; }

    /// <summary>Lower end of the 95 % interval.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? Lower95 { get; init; }

    /// <summary>Upper end of the 95 % interval.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? Upper95 { get; init; }

    /// <summary>Effective degrees of freedom of the standard uncertainty (GUM, equation G.2b); null where unlimited.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? DegreesOfFreedom { get; init; }

    /// <summary>A lower bound: the figure is this or more.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? AtLeast { get; init; }

    /// <summary>An upper bound: the figure is this or less.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? AtMost { get; init; }

    /// <summary>The uncertainty that a second set would respect, for a figure that people act on; null where none is stated.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public FigureBudget? Budget { get; init; }

    /// <summary>The figure with the interval that the body's own value lies in, whatever set is shot next; itself without a budget.</summary>
    public Figure OfBody() => Budget is not { } budget ? this : this with
    {
        StandardUncertainty = budget.StandardUncertainty,
        Lower95 = budget.Lower95,
        Upper95 = budget.Upper95,
        DegreesOfFreedom = budget.DegreesOfFreedom,
        Budget = null,
    };

    /// <summary>An estimate with its interval.</summary>
    /// <param name="value">The estimate, finite.</param>
    /// <param name="standardUncertainty">Standard uncertainty, finite, 0 or more.</param>
    /// <param name="lower95">Lower end of the 95 % interval, no more than the value.</param>
    /// <param name="upper95">Upper end of the 95 % interval, no less than the value.</param>
    /// <param name="degreesOfFreedom">Effective degrees of freedom, above 0; null where unlimited.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or out of its domain.</exception>
    public static Figure Estimate(double value, double standardUncertainty, double lower95, double upper95, double? degreesOfFreedom = null)
    {
        RequireFinite(value, nameof(value));
        RequireFinite(standardUncertainty, nameof(standardUncertainty));
        ArgumentOutOfRangeException.ThrowIfNegative(standardUncertainty);
        RequireFinite(lower95, nameof(lower95));
        RequireFinite(upper95, nameof(upper95));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(lower95, value);
        ArgumentOutOfRangeException.ThrowIfLessThan(upper95, value);
        return new Figure
        {
            Value = value,
            StandardUncertainty = standardUncertainty,
            Lower95 = lower95,
            Upper95 = upper95,
            DegreesOfFreedom = degreesOfFreedom,
        };
    }

    /// <summary>An estimate with the interval of a normal distribution.</summary>
    /// <param name="value">The estimate, finite.</param>
    /// <param name="standardUncertainty">Standard uncertainty, finite, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or out of its domain.</exception>
    public static Figure Normal(double value, double standardUncertainty) => Estimate(
        value, standardUncertainty, value - (NormalFactor95 * standardUncertainty), value + (NormalFactor95 * standardUncertainty));

    /// <summary>A lower bound.</summary>
    /// <param name="bound">The bound, finite.</param>
    /// <exception cref="ArgumentOutOfRangeException">The bound is not finite.</exception>
    public static Figure LowerBound(double bound)
    {
        RequireFinite(bound, nameof(bound));
        return new Figure { AtLeast = bound };
    }

    /// <summary>An upper bound.</summary>
    /// <param name="bound">The bound, finite.</param>
    /// <exception cref="ArgumentOutOfRangeException">The bound is not finite.</exception>
    public static Figure UpperBound(double bound)
    {
        RequireFinite(bound, nameof(bound));
        return new Figure { AtMost = bound };
    }

    private static void RequireFinite(double number, string name)
    {
        if (!double.IsFinite(number))
        {
            throw new ArgumentOutOfRangeException(name, number, "A figure is finite.");
        }
    }
}
