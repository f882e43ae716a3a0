using System.Globalization;

namespace SensorLab.Reports.Charts;

/// <summary>EV figures as they are printed: signed, with a true minus, in invariant digits.</summary>
internal static class EvText
{
    /// <summary>What stands where a figure is absent.</summary>
    public const string NotMeasured = "not measured";

    /// <summary>A whole stop: +2, 0, −3.</summary>
    /// <param name="ev">Whole EV.</param>
    public static string WholeStop(double ev) => Signed(ev, 0);

    /// <summary>A signed EV value.</summary>
    /// <param name="ev">EV, finite.</param>
    /// <param name="decimals">Decimals, 0 or more.</param>
    public static string Signed(double ev, int decimals = 2)
    {
        double rounded = Math.Round(ev, decimals, MidpointRounding.AwayFromZero);
        string digits = Math.Abs(rounded).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return rounded switch
        {
            > 0 => "+" + digits,
            < 0 => "−" + digits,
            _ => digits,
        };
    }

    /// <summary>A mark with the half-width of its 95 % interval, or the words that make a bound a bound.</summary>
    /// <param name="mark">The mark; null where absent.</param>
    /// <returns>"+3.31 ±0.02", "at least +2.90" (that far from middle grey or further), "−5.00 or brighter", or <see cref="NotMeasured"/>.</returns>
    public static string Mark(EvMark? mark)
    {
        if (mark is not { } known)
        {
            return NotMeasured;
        }

        if (known.IsBound)
        {
            return IsOpenOutwards(known)
                ? $"at least {Signed(known.Ev)}"
                : $"{Signed(known.Ev)} or {(known.Open == OpenSide.Highlight ? "brighter" : "darker")}";
        }

        (string up, string down) = (HalfWidth(known.Upper95 - known.Ev), HalfWidth(known.Ev - known.Lower95));
        return $"{Signed(known.Ev)} {(up == down ? "±" + up : $"+{up} −{down}")}";
    }

    /// <summary>A mark inside a sentence, after "at".</summary>
    /// <param name="mark">The mark.</param>
    /// <returns>"+3.31 ±0.02 EV", "+2.90 EV or brighter".</returns>
    public static string MarkInSentence(EvMark? mark) => mark is { IsBound: true } bound
        ? $"{Signed(bound.Ev)} EV or {(bound.Open == OpenSide.Highlight ? "brighter" : "darker")}"
        : $"{Mark(mark)} EV";

    // "At least" means further from middle grey, on the side on which the mark lies.
    private static bool IsOpenOutwards(EvMark mark) => mark.Open == OpenSide.Highlight ? mark.Ev >= 0 : mark.Ev < 0;

    private static string HalfWidth(double ev) => FigureText.RoundedUp(ev, 2).ToString("F2", CultureInfo.InvariantCulture);
}
