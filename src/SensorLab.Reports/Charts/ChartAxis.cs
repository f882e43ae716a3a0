using System.Globalization;

namespace SensorLab.Reports.Charts;

/// <summary>An axis apart from its drawing.</summary>
/// <param name="Title">What is counted along it.</param>
/// <param name="Unit">The unit; empty for a ratio.</param>
/// <param name="Scale">How values map to length.</param>
/// <param name="Minimum">Its lower end, in the unit.</param>
/// <param name="Maximum">Its upper end, in the unit.</param>
/// <param name="Ticks">The labelled values, all within the ends.</param>
internal sealed record ChartAxis(
    string Title, string Unit, AxisScale Scale, double Minimum, double Maximum, IReadOnlyList<AxisTick> Ticks)
{
    // A marker on the very edge of a logarithmic axis would be cut in half.
    private const double Margin = 1.12;

    // Over more decades than this the labels of 2 and 5 would run into each other.
    private const double MostDenseDecades = 3.2;

    // An axis ends here, whatever a figure's interval reaches to: no light spans more, and no loop runs on over a file's numbers.
    private const double FurthestEv = 100;
    private const double LowestPower = 1e-12;
    private const double HighestPower = 1e15;

    // More labels along an axis than these would run into each other.
    private const int MostStops = 24;
    private const int MostDecades = 12;

    /// <summary>Whole stops with middle grey at 0, which is always on the axis.</summary>
    /// <param name="lowestEv">The lowest EV to be shown.</param>
    /// <param name="highestEv">The highest EV to be shown.</param>
    public static ChartAxis Ev(double lowestEv, double highestEv)
    {
        double minimum = Math.Floor(Math.Clamp(lowestEv, -FurthestEv, -1) - 0.15);
        double maximum = Math.Ceiling(Math.Clamp(highestEv, 1, FurthestEv) + 0.15);
        int step = (int)Math.Ceiling((maximum - minimum) / MostStops);
        var ticks = new List<AxisTick>();
        for (double ev = step * Math.Ceiling(minimum / step); ev <= maximum; ev += step)
        {
            ticks.Add(new AxisTick(ev, EvText.WholeStop(ev)));
        }

        return new ChartAxis("Exposure relative to middle grey", "EV", AxisScale.Linear, minimum, maximum, ticks);
    }

    /// <summary>A logarithmic axis over whole decades or, where the range is short, over 1, 2 and 5 of each decade.</summary>
    /// <param name="title">What is counted.</param>
    /// <param name="unit">The unit; empty for a ratio.</param>
    /// <param name="lowest">The lowest value to be shown, above 0.</param>
    /// <param name="highest">The highest value to be shown, above <paramref name="lowest"/>.</param>
    public static ChartAxis Logarithmic(string title, string unit, double lowest, double highest)
    {
        double minimum = StepBelow(Math.Clamp(lowest, LowestPower, HighestPower / 10) / Margin);
        double maximum = -StepBelow(-Math.Clamp(highest, 10 * LowestPower, HighestPower) * Margin);
        double decades = Math.Log10(maximum / minimum);
        bool sparse = decades > MostDenseDecades;
        int step = (int)Math.Ceiling(decades / MostDecades);
        var ticks = new List<AxisTick>();
        for (int decade = (int)Math.Floor(Math.Log10(minimum)); decade <= Math.Ceiling(Math.Log10(maximum)); decade += step)
        {
            foreach (double digit in sparse ? [1.0] : new[] { 1.0, 2.0, 5.0 })
            {
                double value = digit * Math.Pow(10, decade);
                if (value >= minimum * 0.999 && value <= maximum * 1.001)
                {
                    ticks.Add(new AxisTick(value, Plain(value)));
                }
            }
        }

        return new ChartAxis(title, unit, AxisScale.Logarithmic, minimum, maximum, ticks);
    }

    /// <summary>Title and unit as printed along the axis.</summary>
    public string Caption => Unit.Length == 0 ? Title : $"{Title} ({Unit})";

    /// <summary>A plain number with thin thousands and no trailing zeros.</summary>
    /// <param name="value">The number.</param>
    public static string Plain(double value) =>
        value.ToString(Math.Abs(value) >= 10_000 ? "#,0" : "0.######", CultureInfo.InvariantCulture).Replace(',', '\u2009');

    // The next of 1, 2, 5 × 10ⁿ below a positive number; above the absolute of a negative one.
    private static double StepBelow(double value)
    {
        double size = Math.Abs(value);
        double decade = Math.Pow(10, Math.Floor(Math.Log10(size)));
        double[] steps = [decade, 2 * decade, 5 * decade, 10 * decade];
        return value > 0 ? steps.Last(s => s <= size * 1.0000001) : -steps.First(s => s >= size * 0.9999999);
    }
}
