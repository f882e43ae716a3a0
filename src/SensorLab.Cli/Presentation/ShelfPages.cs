using System.Globalization;
using SensorLab.Reports;
using SensorLab.Reports.Shelves;
using SensorLab.Retest;
using SensorLab.Shelf.History;
using SensorLab.Shelf.Models;

namespace SensorLab.Cli.Presentation;

/// <summary>The shelf's answers as pages.</summary>
internal static class ShelfPages
{
    /// <summary>A body's history.</summary>
    public static byte[] History(BodyHistory history) => ShelfPageWriter.History(history.Body.Name,
    [
        .. history.Courses.GroupBy(c => (c.Address.Name, c.Address.Channel, c.Mode)).Select(kind => new CourseFigure(
            TitleOf(kind.First().Address) + (history.Courses.Select(c => c.Mode).Distinct().Count() > 1 ? $", {kind.Key.Mode}" : string.Empty),
            FigureName.CountsDown(kind.Key.Name),
            FigureName.IsEv(kind.Key.Name),
            [.. kind.OrderBy(c => c.Address.Iso).Select(c => new CourseLine(LabelOf(c.Address), [.. c.Points.Select(MarkOf)]))]) { IsUp = FigureName.CountsUp(kind.Key.Name) }),
    ]);

    /// <summary>A model's bodies.</summary>
    public static byte[] Model(ModelSpread spread) => ShelfPageWriter.Model(spread.Name,
    [
        .. spread.Figures.Select(f => new CourseFigure(
            $"{TitleOf(f.Address)} at {LabelOf(f.Address)}",
            FigureName.CountsDown(f.Address.Name),
            FigureName.IsEv(f.Address.Name),
            [new CourseLine(LabelOf(f.Address), [.. f.Bodies.Select(b => MarkOf(b, f.StandingOut.Contains(b)))], f.Unmeasured)]) { IsUp = FigureName.CountsUp(f.Address.Name), IsOfFew = !f.CanTellWhoStandsOut }),
    ]);

    private static string TitleOf(FigureAddress address) => FigureName.WordsOf(address.Name) + (address.Channel is { } channel ? $", {channel}" : string.Empty);

    private static string LabelOf(FigureAddress address) => string.Create(CultureInfo.InvariantCulture, $"ISO {address.Iso}");

    private static CourseMark MarkOf(CoursePoint point) => new(
        point.Profile.CreatedUtc,
        $"{ShelfListText.DateOf(point.Profile)}, {ShelfListText.FirmwareOf(point.Profile)}",
        point.Profile.Firmware ?? string.Empty,
        point.Figure,
        ShelfHistoryText.VerdictOf(point),
        point.Step?.Verdict == RetestVerdict.Changed)
    {
        IsOpen = point.NotCompared is not null || point.Step?.Verdict is RetestVerdict.Undecided or RetestVerdict.NotJudged,
    };

    private static CourseMark MarkOf(BodyFigure body, bool isOut) => new(
        body.Profile.CreatedUtc,
        $"{body.Profile.Body.SerialNumber ?? body.Profile.Body.Name}, {ShelfListText.DateOf(body.Profile)}",
        body.Profile.Firmware ?? string.Empty,
        ShelfModelText.Alone(body),
        isOut ? "stands out" : string.Empty,
        isOut)
    {
        ShortName = body.Profile.Body.SerialNumber ?? string.Empty,
    };
}
