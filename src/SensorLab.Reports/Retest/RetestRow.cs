using SensorLab.Retest;

namespace SensorLab.Reports.Retest;

/// <summary>One difference in units of its margin.</summary>
/// <param name="Kind">The figure's words.</param>
/// <param name="Channel">Its channel; null for the whole ISO.</param>
/// <param name="Value">The difference in margins; null where only a bound is known.</param>
/// <param name="Lower">The lower end of its 95 % interval, in margins.</param>
/// <param name="Upper">The upper end.</param>
/// <param name="Text">The difference in its own unit.</param>
/// <param name="MarginText">The margin in its own unit.</param>
/// <param name="Verdict">The verdict.</param>
internal sealed record RetestRow(string Kind, string? Channel, double? Value, double Lower, double Upper, string Text, string MarginText, RetestVerdict Verdict)
{
    /// <summary>The figure's words, with its channel.</summary>
    public string Name => Channel is null ? Kind : $"{Kind}, {Channel}";

    public static RetestRow Of(ComparedFigure figure)
    {
        double margin = figure.Margin!.Value;
        double sign = FigureName.CountsDown(figure.Address.Name) ? -1 : 1;
        (double? first, double? last) = (sign * figure.Difference?.Lower95 / margin, sign * figure.Difference?.Upper95 / margin);
        return new RetestRow(
            FigureName.WordsOf(figure.Address.Name),
            figure.Address.Channel,
            sign * figure.Difference?.Value / margin,
            Math.Min(first ?? 0, last ?? 0),
            Math.Max(first ?? 0, last ?? 0),
            DifferenceText.Of(figure),
            DifferenceText.OfMargin(margin, figure.Unit),
            figure.Verdict);
    }
}
