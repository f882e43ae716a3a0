using System.Globalization;
using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;

namespace SensorLab.Reports.Shelves;

/// <summary>A figure over a body's profiles, or over a model's bodies, with intervals drawn and what is marked.</summary>
internal static class CourseChart
{
    /// <summary>More lines than this would not be told apart; the tables have all.</summary>
    public const int MostLines = 5;

    private const float Height = 320;
    private const double MostLabels = 8;
    private const int MostNamed = 5;
    private const int LongestName = 8;
    private const double MonthsOfYears = 3;
    private const double DaysOfYear = 365.25;

    // Of the room at an end of the axis.
    private const double Beside = 0.12;

    /// <summary>The course of a figure over time.</summary>
    /// <param name="figure">The figure.</param>
    /// <param name="body">The body's name.</param>
    /// <param name="sentence">What it shows.</param>
    public static PlotModel OverTime(CourseFigure figure, string body, string sentence)
    {
        CourseLine[] lines = [.. figure.Lines.Take(MostLines)];
        CourseMark[] marks = [.. lines.SelectMany(l => l.Marks).Where(m => m.Time is not null)];
        double[] years = [.. marks.Select(m => YearOf(m.Time!.Value)).DefaultIfEmpty(0)];
        double room = Math.Max(0.1, 0.06 * (years.Max() - years.Min()));
        var horizontal = new ChartAxis("Last frame of the set", string.Empty, AxisScale.Linear, years.Min() - room, years.Max() + room, TimeTicks(years.Min() - room, years.Max() + room));
        PlotSeries[] series = [.. lines.Select((line, i) => SeriesOf(figure, line, i, line.Marks.Where(m => m.Time is not null).Select(m => (PlaceOf(m, i), m)), PlotForm.JoinedPoints))];

        // The ISOs of a set are of one time: side by side their intervals can be told apart.
        double PlaceOf(CourseMark mark, int line) => YearOf(mark.Time!.Value) + ((line - ((lines.Length - 1) / 2.0)) * Beside * room);
        return Model(figure, body, sentence, horizontal, series, MarkedOf(figure, lines.SelectMany((l, i) => l.Marks.Where(m => m.Time is not null).Select(m => (PlaceOf(m, i), m))), "changed from the one before"), FirmwareRules(marks), "over time");
    }

    /// <summary>A figure over the bodies of a model, by value.</summary>
    /// <param name="figure">The figure, of one line.</param>
    /// <param name="model">The model's name.</param>
    /// <param name="sentence">What it shows.</param>
    public static PlotModel OverBodies(CourseFigure figure, string model, string sentence)
    {
        CourseLine line = figure.Lines[0];
        (double, CourseMark)[] bodies = [.. line.Marks.Select((m, i) => (i + 1.0, m))];
        var horizontal = new ChartAxis("Bodies, by value", string.Empty, AxisScale.Linear, 0, bodies.Length + 1, BodyTicks(line.Marks));
        List<PlotRule> rules = [];
        if (line.Expected is { Value: not null } expected)
        {
            Figure shown = Shown(figure, expected);
            rules.AddRange([new PlotRule(false, shown.Value!.Value, "mean", true), new PlotRule(false, shown.Lower95!.Value, string.Empty, false), new PlotRule(false, shown.Upper95!.Value, "an unmeasured body: 95 %", false)]);
        }

        return Model(figure, model, sentence, horizontal, [SeriesOf(figure, line, 0, bodies)], MarkedOf(figure, bodies, "stands out"), rules, "over bodies");
    }

    /// <summary>A figure with the sign that it is shown with.</summary>
    public static Figure Shown(CourseFigure figure, Figure value)
    {
        Figure own = value.OfBody();
        return !figure.IsDown ? own
            : own.Value is { } v ? Figure.Estimate(-v, own.StandardUncertainty ?? 0, -(own.Upper95 ?? v), -(own.Lower95 ?? v), own.DegreesOfFreedom)
            : own.AtLeast is { } least ? Figure.UpperBound(-least)
            : own.AtMost is { } most ? Figure.LowerBound(-most)
            : own;
    }

    private static PlotModel Model(
        CourseFigure figure, string body, string sentence, ChartAxis horizontal, PlotSeries[] series, PlotSeries marked, IReadOnlyList<PlotRule> rules, string what)
    {
        double[] ends =
        [
            .. series.SelectMany(s => s.Points).SelectMany(p => new[] { p.Y, p.LowerY95 ?? p.Y, p.UpperY95 ?? p.Y }),
            .. rules.Where(r => !r.IsUpright).Select(r => r.Value),
        ];
        double least = ends.DefaultIfEmpty(0).Min();
        double most = ends.DefaultIfEmpty(1).Max();
        double room = Math.Max(0.08 * (most - least), Math.Max(1e-9, 0.02 * Math.Abs(most)));
        var vertical = new ChartAxis(figure.Title, figure.IsEv ? "EV" : string.Empty, AxisScale.Linear, least - room, most + room, ValueTicks(least - room, most + room));
        var heading = new ChartHeading($"{Capital(figure.Title)} {what}", body, sentence, $"{Capital(figure.Title)} {what}, each with its 95 % interval. {sentence}");
        return new PlotModel(heading, horizontal, [new PlotPanel(vertical, Height, marked.Points.Count > 0 ? [.. series, marked] : series) { Rules = rules }]);
    }

    private static PlotSeries SeriesOf(CourseFigure figure, CourseLine line, int index, IEnumerable<(double X, CourseMark Mark)> marks, PlotForm form = PlotForm.Points) => new(
        line.Label,
        (index + 1).ToString(CultureInfo.InvariantCulture),
        [.. marks.Select(m => PointOf(m.X, Shown(figure, m.Mark.Figure))).OfType<PlotPoint>()],
        form);

    // Bounds are in the table: in the picture they would pass for values.
    private static PlotPoint? PointOf(double x, Figure figure) => figure.Value is { } value ? new PlotPoint(x, value) { LowerY95 = figure.Lower95, UpperY95 = figure.Upper95 } : null;

    private static PlotSeries MarkedOf(CourseFigure figure, IEnumerable<(double X, CourseMark Mark)> marks, string label) => new(
        label,
        "ink",
        [.. marks.Where(m => m.Mark.IsMarked && m.Mark.Figure.Value is not null).Select(m => new PlotPoint(m.X, Shown(figure, m.Mark.Figure).Value!.Value))]);

    private static PlotRule[] FirmwareRules(IEnumerable<CourseMark> marks)
    {
        CourseMark[] inOrder = [.. marks.OrderBy(m => m.Time)];
        return
        [
            .. inOrder.Zip(inOrder.Skip(1)).Where(p => p.First.Firmware != p.Second.Firmware && p.Second.Firmware.Length > 0)
                .Select(p => new PlotRule(true, (YearOf(p.First.Time!.Value) + YearOf(p.Second.Time!.Value)) / 2, p.Second.Firmware, false))
                .DistinctBy(r => r.Label),
        ];
    }

    private static double YearOf(DateTimeOffset time) => time.UtcDateTime.Year + ((time.UtcDateTime.DayOfYear - 1) / DaysOfYear);

    private static AxisTick[] TimeTicks(double from, double to)
    {
        if (to - from > MonthsOfYears)
        {
            int step = (int)Math.Ceiling((to - from) / MostLabels);
            return [.. Enumerable.Range((int)Math.Ceiling(from), Math.Max(0, (int)Math.Floor(to) - (int)Math.Ceiling(from) + 1)).Where(y => y % step == 0).Select(y => new AxisTick(y, y.ToString(CultureInfo.InvariantCulture)))];
        }

        int months = to - from > 1 ? 3 : 1;
        return
        [
            .. Enumerable.Range((int)(from * 12), (int)((to - from) * 12) + 2).Where(m => m % months == 0 && m / 12.0 >= from && m / 12.0 <= to)
                .Select(m => new AxisTick(m / 12.0, new DateTime(m / 12, (m % 12) + 1, 1).ToString("MMM yyyy", CultureInfo.InvariantCulture))),
        ];
    }

    // A few bodies have room for their names.
    private static AxisTick[] BodyTicks(IReadOnlyList<CourseMark> bodies)
    {
        int count = bodies.Count;
        if (count <= MostNamed && bodies.All(b => b.ShortName.Length is > 0 and <= LongestName))
        {
            return [.. bodies.Select((b, i) => new AxisTick(i + 1, ForeignText.OneLine(b.ShortName)))];
        }

        int step = Math.Max(1, (int)Math.Ceiling(count / MostLabels));
        return [.. Enumerable.Range(1, count).Where(i => i % step == 0 || (i == 1 && step > 1)).Select(i => new AxisTick(i, i.ToString(CultureInfo.InvariantCulture)))];
    }

    private static AxisTick[] ValueTicks(double from, double to)
    {
        double rough = (to - from) / MostLabels;
        double decade = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        double step = new[] { 1, 2, 5, 10 }.Select(s => s * decade).First(s => s >= rough * 0.999);
        int decimals = Math.Clamp(-(int)Math.Floor(Math.Log10(step)), 0, 9);
        int first = (int)Math.Ceiling(from / step);
        return [.. Enumerable.Range(first, Math.Max(0, (int)Math.Floor(to / step) - first + 1)).Select(i => new AxisTick(i * step, (i * step).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture).Replace('-', '−')))];
    }

    private static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];
}
