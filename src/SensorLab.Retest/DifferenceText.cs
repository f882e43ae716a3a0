using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>Differences and margins as text, in the margin's unit.</summary>
public static class DifferenceText
{
    /// <summary>A difference with half its 95 % interval, rounded up: "+2.01 ±0.04 %".</summary>
    /// <param name="difference">The difference in its unit; null gives a hyphen.</param>
    /// <param name="unit">The unit.</param>
    public static string Of(Figure? difference, MarginUnit unit)
    {
        double scale = unit == MarginUnit.Relative ? 100 : 1;
        return difference switch
        {
            { Value: { } value } => string.Create(CultureInfo.InvariantCulture, $"{Signed(value * scale)} ±{Math.Ceiling((Half(difference, value) * scale * 100) - 1e-9) / 100:0.00} {WordOf(unit)}"),
            { AtLeast: { } bound } => $"at least {Signed(bound * scale)} {WordOf(unit)}",
            { AtMost: { } bound } => $"at most {Signed(bound * scale)} {WordOf(unit)}",
            _ => "-",
        };
    }

    /// <summary>A compared figure's difference, as EV from middle grey where it is in stops: down is minus.</summary>
    /// <param name="figure">The compared figure.</param>
    public static string Of(ComparedFigure figure) => figure is { Difference: { } d } && FigureName.CountsDown(figure.Address.Name)
        ? Of(d with { Value = -d.Value, Lower95 = -d.Upper95, Upper95 = -d.Lower95, AtLeast = -d.AtMost, AtMost = -d.AtLeast }, figure.Unit)
        : Of(figure.Difference, figure.Unit);

    /// <summary>A margin: "0.1 EV", "2 %", "1 DN".</summary>
    /// <param name="margin">The margin in its unit.</param>
    /// <param name="unit">The unit.</param>
    public static string OfMargin(double margin, MarginUnit unit) =>
        string.Create(CultureInfo.InvariantCulture, $"{margin * (unit == MarginUnit.Relative ? 100 : 1):0.###} {WordOf(unit)}");

    private static string WordOf(MarginUnit unit) => unit switch
    {
        MarginUnit.Relative => "%",
        MarginUnit.Ev => "EV",
        _ => "DN",
    };

    private static double Half(Figure difference, double value) => Math.Max((difference.Upper95 ?? value) - value, value - (difference.Lower95 ?? value));

    private static string Signed(double number)
    {
        double rounded = Math.Round(number, 2, MidpointRounding.AwayFromZero);
        return (rounded == 0 ? 0 : rounded).ToString("+0.00;-0.00;0.00", CultureInfo.InvariantCulture);
    }
}
