using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Text.RegularExpressions;
using SensorLab.Profiles;

namespace SensorLab.TestData;

/// <summary>Figures as they are printed, found in a text and compared with a profile's.</summary>
internal static partial class PrintedFigures
{
    // Binary rounding in the last place of a half-width.
    private const double Hair = 1e-6;

    /// <summary>Every "value ± half-width" of a text.</summary>
    public static IReadOnlyList<Printed> In(string text) =>
        [.. Estimate().Matches(text).Select(m => new Printed(Number(m.Groups[1].Value), Number(m.Groups[2].Value), Decimals(m.Groups[2].Value), m.Value))];

    /// <summary>Every figure of a profile, wherever it stands.</summary>
    public static IReadOnlyList<Figure> Of(object profile)
    {
        var found = new List<Figure>();
        Collect(profile, found);
        return found;
    }

    /// <summary>Whether a printed figure is this one, or its negative, which the EV axis shows for what counts below grey.</summary>
    public static bool Matches(Printed printed, Figure figure)
    {
        if (figure.Value is not { } value)
        {
            return false;
        }

        double unit = Math.Pow(10, -printed.Decimals);
        double half = Math.Max(figure.Upper95!.Value - value, value - figure.Lower95!.Value);
        bool isValue = Math.Abs(Math.Abs(printed.Value) - Math.Abs(value)) <= (0.5 * unit) + Hair;
        return isValue && printed.HalfWidth >= half - Hair && printed.HalfWidth < half + unit + Hair;
    }

    private static void Collect(object? item, List<Figure> found)
    {
        switch (item)
        {
            case null or string or ValueType:
                return;
            case Figure figure:
                found.Add(figure);
                return;
            case IEnumerable items:
                foreach (object? inner in items)
                {
                    Collect(inner, found);
                }

                return;
            default:
                foreach (PropertyInfo property in item.GetType().GetProperties().Where(p => p.GetIndexParameters().Length == 0))
                {
                    Collect(property.GetValue(item), found);
                }

                return;
        }
    }

    private static double Number(string digits) => double.Parse(digits.Replace('−', '-'), CultureInfo.InvariantCulture);

    private static int Decimals(string digits) => digits.Contains('.', StringComparison.Ordinal) ? digits.Length - digits.IndexOf('.', StringComparison.Ordinal) - 1 : 0;

    [GeneratedRegex(@"([+−-]?\d+(?:\.\d+)?)\s*±\s*(\d+(?:\.\d+)?)")]
    private static partial Regex Estimate();
}
