using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>Figures in stops as text.</summary>
internal static class StopText
{
    /// <summary>What stands where a figure is absent.</summary>
    public const string Absent = "-";

    /// <summary>A figure in stops with the half-width of its 95 % interval, which is rounded up.</summary>
    /// <returns>"3.31 ±0.02", "at least 2.90", "at most 2.90" or <see cref="Absent"/>.</returns>
    public static string Of(Figure? figure) => figure switch
    {
        null => Absent,
        { AtLeast: { } bound } => $"at least {Rounded(bound)}",
        { AtMost: { } bound } => $"at most {Rounded(bound)}",
        { Value: { } value } => $"{Rounded(value)} ±{HalfWidth(figure, value)}",
        _ => Absent,
    };

    private static string HalfWidth(Figure figure, double value)
    {
        double half = Math.Max((figure.Upper95 ?? value) - value, value - (figure.Lower95 ?? value));

        // A hair above a hundredth is rounding in binary, not uncertainty.
        double hundredths = Math.Ceiling((half * 100) - 1e-9);
        return Rounded(hundredths / 100);
    }

    private static string Rounded(double number)
    {
        double rounded = Math.Round(number, 2, MidpointRounding.AwayFromZero);
        return (rounded == 0 ? 0 : rounded).ToString("F2", CultureInfo.InvariantCulture);
    }
}
