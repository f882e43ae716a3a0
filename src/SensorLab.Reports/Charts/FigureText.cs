using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>Figures as they are printed.</summary>
internal static class FigureText
{
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
                int decimals = half > 0 ? Math.Clamp(1 - (int)Math.Floor(Math.Log10(half)), 0, 6) : 3;
                return $"{Fixed(value, decimals)} ±{Fixed(half, decimals)} {unit}";
            case { AtLeast: { } bound }:
                return string.Create(CultureInfo.InvariantCulture, $"at least {bound:G4} {unit}");
            case { AtMost: { } bound }:
                return string.Create(CultureInfo.InvariantCulture, $"at most {bound:G4} {unit}");
            default:
                return EvText.NotMeasured;
        }
    }

    private static string Fixed(double value, int decimals) =>
        value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture).Replace('-', '−');
}
