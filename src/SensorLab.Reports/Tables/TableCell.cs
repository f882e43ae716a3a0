using System.Globalization;
using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;

namespace SensorLab.Reports.Tables;

/// <summary>A cell of a table: what is printed, and the value behind it.</summary>
/// <param name="Printed">What a reader sees.</param>
/// <param name="Value">A text, a number, a whole number, a truth value, a figure, or null where there is none.</param>
internal readonly record struct TableCell(string Printed, object? Value)
{
    /// <summary>What is printed where there is nothing.</summary>
    public const string Nothing = "–";

    /// <summary>A cell without a value.</summary>
    public static TableCell Empty { get; } = new(Nothing, null);

    /// <summary>Words, from anywhere.</summary>
    /// <param name="words">The words; null or empty where absent.</param>
    public static TableCell Words(string? words) => ForeignText.OneLine(words) is { Length: > 0 } line ? new(line, line) : Empty;

    /// <summary>A whole number.</summary>
    /// <param name="number">The number; null where absent.</param>
    public static TableCell Whole(long? number) => number is { } n ? new(n.ToString(CultureInfo.InvariantCulture).Replace('-', '−'), n) : Empty;

    /// <summary>A number.</summary>
    /// <param name="number">The number; null where absent.</param>
    /// <param name="format">How it is printed.</param>
    public static TableCell Number(double? number, string format) =>
        number is { } n ? new(Plain(n.ToString(format, CultureInfo.InvariantCulture)), n) : Empty;

    /// <summary>A figure, printed to the second digit of its half-width.</summary>
    /// <param name="figure">The figure; null where absent.</param>
    public static TableCell Of(Figure? figure) => figure is null ? Empty : new(FigureText.WithInterval(figure, string.Empty), figure);

    /// <summary>A figure that counts stops above middle grey, with the interval that a second set would respect.</summary>
    /// <param name="figure">The figure in EV; null where absent.</param>
    public static TableCell Above(Figure? figure) => new(Placed(EvMark.Above(figure)), figure?.OfBody());

    /// <summary>A figure that counts stops below middle grey, printed as EV from middle grey, down is minus; its value stays as the profile's.</summary>
    /// <param name="figure">The figure in EV; null where absent.</param>
    public static TableCell Below(Figure? figure) => new(Placed(EvMark.Below(figure)), figure?.OfBody());

    /// <summary>The same with the interval of this set's noise alone.</summary>
    /// <param name="figure">The figure in EV; null where absent.</param>
    public static TableCell BelowAlone(Figure? figure) => figure is null ? Empty : new(Placed(EvMark.Below(figure with { Budget = null })), figure);

    /// <summary>A figure in stops, printed to hundredths as everywhere.</summary>
    /// <param name="figure">The figure in EV; null where absent.</param>
    public static TableCell Stops(Figure? figure) => figure switch
    {
        null => Empty,
        { AtLeast: { } bound } => new($"at least {Hundredths(bound)}", figure),
        { AtMost: { } bound } => new($"at most {Hundredths(bound)}", figure),
        { Value: { } value } => new($"{Hundredths(value)} ±{Hundredths(FigureText.RoundedUp(HalfWidth(figure, value), 2))}", figure),
        _ => Empty,
    };

    /// <summary>A figure in stops whose interval is of tenths: what a day's frames tell.</summary>
    /// <param name="figure">The figure in EV; null where absent.</param>
    public static TableCell Tenths(Figure? figure) => figure is not { Value: { } value } ? Empty
        : new($"{EvText.Signed(value, 1)} ±{FigureText.RoundedUp(HalfWidth(figure, value), 1).ToString("F1", CultureInfo.InvariantCulture)}", figure);

    private static string Placed(EvMark? mark) => mark is null ? Nothing : EvText.Mark(mark);

    private static double HalfWidth(Figure figure, double value) =>
        Math.Max((figure.Upper95 ?? value) - value, value - (figure.Lower95 ?? value));

    private static string Hundredths(double number) =>
        Plain(Math.Round(number, 2, MidpointRounding.AwayFromZero).ToString("F2", CultureInfo.InvariantCulture));

    private static string Plain(string digits) => digits.TrimStart('-').All(c => c is '0' or '.') ? digits.TrimStart('-') : digits.Replace('-', '−');
}
