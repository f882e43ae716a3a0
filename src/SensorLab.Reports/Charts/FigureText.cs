using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>Figures as they are printed.</summary>
public static class FigureText
{
    // Of a printed digit: less is rounding in binary.
    private const double Hair = 1e-7;

    /// <summary>A figure with the half-width of its 95 % interval, rounded to that half-width's second digit.</summary>
    /// <param name="figure">The figure; null where absent.</param>
    /// <param name="unit">The unit.</param>
    /// <returns>"1.234 ±0.004 e⁻/DN", "at least 3 e⁻", or that it was not measured.</returns>
    public static string WithInterval(Figure? figure, string unit)
    {
        switch (figure)
        {
            case { Value: { } value }:
                double half = Math.Max((figure.Upper95 ?? value) - value, value - (figure.Lower95 ?? value));
                int decimals = DecimalsFor(half);
                return $"{Fixed(value, decimals)} ±{Fixed(RoundedUp(half, decimals), decimals)}{(unit.Length > 0 ? " " : string.Empty)}{unit}";
            case { AtLeast: { } bound }:
                return $"at least {Bound(bound, Math.Floor, Hair)} {unit}".TrimEnd();
            case { AtMost: { } bound }:
                return $"at most {Bound(bound, Math.Ceiling, -Hair)} {unit}".TrimEnd();
            default:
                return EvText.NotMeasured;
        }
    }

    /// <summary>How many decimals a number is printed with whose 95 % interval has this half-width: to its second digit.</summary>
    /// <param name="half">The half-width, 0 or more.</param>
    public static int DecimalsFor(double half) => half > 0 ? Math.Clamp(1 - (int)Math.Floor(Math.Log10(half)), 0, 6) : 3;

    /// <summary>A half-width rounded up: a printed interval is never narrower than the profile's.</summary>
    /// <param name="half">The half-width.</param>
    /// <param name="decimals">Decimals, 0 or more.</param>
    public static double RoundedUp(double half, int decimals)
    {
        double scale = Math.Pow(10, decimals);
        return Math.Max(0, Math.Ceiling((half * scale) - Hair)) / scale;
    }

    // Four digits, rounded to the side on which the bound stays true.
    private static string Bound(double bound, Func<double, double> round, double hair)
    {
        int decimals = bound == 0 ? 0 : Math.Clamp(3 - (int)Math.Floor(Math.Log10(Math.Abs(bound))), 0, 6);
        double scale = Math.Pow(10, decimals);
        return Fixed(round((bound * scale) + hair) / scale, decimals);
    }

    private static string Fixed(double value, int decimals) =>
        value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture).Replace('-', '−');
}
