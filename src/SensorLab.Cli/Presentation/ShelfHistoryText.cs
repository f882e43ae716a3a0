using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Retest;
using SensorLab.Shelf.History;

namespace SensorLab.Cli.Presentation;

/// <summary>A body's history as text in 80 columns.</summary>
internal static class ShelfHistoryText
{
    private const string Indent = "  ";

    /// <summary>The lines.</summary>
    public static IEnumerable<string> Lines(BodyHistory history)
    {
        yield return history.Body.Name;
        foreach (FigureCourse course in history.Courses)
        {
            yield return string.Empty;
            foreach (string line in WrappedText.Lines(Heading(course, history), string.Empty, Indent))
            {
                yield return line;
            }

            foreach (string line in course.Points.SelectMany(point => Row(point, course.Address)))
            {
                yield return line;
            }
        }

        yield return string.Empty;
        yield return "± is half the 95 % interval that the body's own value lies in. A change has its";
        yield return "own: 95 % for all figures of that one comparison at once.";
    }

    /// <summary>What a course is of.</summary>
    public static string Heading(FigureCourse course, BodyHistory history)
    {
        bool hasModes = history.Courses.Select(c => c.Mode).Distinct().Count() > 1;
        return string.Create(CultureInfo.InvariantCulture, $"ISO {course.Address.Iso}, {NameOf(course.Address)}{(hasModes ? $" ({(course.Mode.Length > 0 ? course.Mode : "mode unknown")})" : string.Empty)}");
    }

    /// <summary>A figure's name with its unit and channel, without its ISO.</summary>
    public static string NameOf(FigureAddress address) =>
        FigureName.WordsOf(address.Name) + (FigureName.IsEv(address.Name) ? " (EV)" : string.Empty) + (address.Channel is { } channel ? $", {channel}" : string.Empty);

    /// <summary>A figure as screens show it: stops from grey with their sign, below it with a minus.</summary>
    public static string ValueOf(Figure figure, string name) =>
        !FigureName.IsEv(name) ? FigureText.WithInterval(figure.OfBody(), string.Empty)
        : FigureName.CountsDown(name) ? StopText.BelowGrey(figure)
        : FigureName.CountsUp(name) ? StopText.FromGrey(figure)
        : StopText.Of(figure);

    /// <summary>How a profile compares with the one before, in words; empty for the first.</summary>
    public static string VerdictOf(CoursePoint point) => point.Step is { } step ? VerdictOf(step) : point.NotCompared is { } why ? $"not compared: {why}" : string.Empty;

    private static IEnumerable<string> Row(CoursePoint point, FigureAddress address)
    {
        string value = ValueOf(point.Figure, address.Name);
        string first = $"{Indent}{ShelfListText.DateOf(point.Profile),-11}  {ShelfListText.FirmwareOf(point.Profile),-14}  {value,-18}";
        return WrappedText.Lines(VerdictOf(point), first, "                               ").Select(line => line.TrimEnd());
    }

    private static string VerdictOf(ComparedFigure step) => step.Verdict switch
    {
        RetestVerdict.NotJudged => $"{DifferenceText.Of(step)}, no margin",
        RetestVerdict.Equivalent => "equivalent",
        _ => $"{RetestResultWriter.WordOf(step.Verdict)}: {DifferenceText.Of(step)}",
    };
}
