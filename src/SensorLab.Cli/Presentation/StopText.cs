using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>Figures in stops as text.</summary>
internal static class StopText
{
    /// <summary>What stands where a figure is absent.</summary>
    public const string Absent = "-";

    /// <summary>A figure in stops with the half-width of its 95 % interval, which is rounded up: the one that a second set would respect, where it has one.</summary>
    /// <returns>"3.31 ±0.02", "at least 2.90", "at most 2.90" or <see cref="Absent"/>.</returns>
    public static string Of(Figure? figure) => figure?.OfBody() switch
    {
        null => Absent,
        { AtLeast: { } bound } => $"at least {Rounded(bound)}",
        { AtMost: { } bound } => $"at most {Rounded(bound)}",
        { Value: { } value } body => $"{Rounded(value)} ±{HalfWidth(body, value)}",
        _ => Absent,
    };

    /// <summary>A figure that counts stops above middle grey, as EV from middle grey.</summary>
    /// <returns>"+3.31 ±0.02", "+2.90 or above", "+2.90 or below" or <see cref="Absent"/>.</returns>
    public static string FromGrey(Figure? figure) => figure?.OfBody() switch
    {
        { AtLeast: { } bound } => $"{Signed(bound)} or above",
        { AtMost: { } bound } => $"{Signed(bound)} or below",
        { Value: { } value } body => $"{Signed(value)} ±{HalfWidth(body, value)}",
        _ => Absent,
    };

    /// <summary>A figure that counts stops below middle grey, as EV from middle grey: down is minus.</summary>
    /// <returns>"-5.31 ±0.02", "-4.90 or below", "-4.90 or above" or <see cref="Absent"/>.</returns>
    public static string BelowGrey(Figure? figure) => figure?.OfBody() switch
    {
        { AtLeast: { } bound } => $"{Signed(-bound)} or below",
        { AtMost: { } bound } => $"{Signed(-bound)} or above",
        { Value: { } value } body => $"{Signed(-value)} ±{HalfWidth(body, value)}",
        _ => Absent,
    };

    private static string HalfWidth(Figure figure, double value)
    {
        double half = Math.Max((figure.Upper95 ?? value) - value, value - (figure.Lower95 ?? value));

        // A hair above a hundredth is rounding in binary, not uncertainty.
        double hundredths = Math.Ceiling((half * 100) - 1e-9);
        return Rounded(hundredths / 100);
    }

    private static string Signed(double number) => Math.Round(number, 2, MidpointRounding.AwayFromZero) > 0 ? "+" + Rounded(number) : Rounded(number);

    private static string Rounded(double number)
    {
        double rounded = Math.Round(number, 2, MidpointRounding.AwayFromZero);
        return (rounded == 0 ? 0 : rounded).ToString("F2", CultureInfo.InvariantCulture);
    }
}
