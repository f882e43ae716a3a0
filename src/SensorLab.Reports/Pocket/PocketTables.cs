using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Tables;

namespace SensorLab.Reports.Pocket;

/// <summary>The pocket sheet's figures as tables, for page and paper alike.</summary>
internal static class PocketTables
{
    // A look that is at its end before bright texture is: the camera's highest setting is 100.
    private const double NoSettingPercent = 99;

    private static readonly TableColumn Iso = new("iso", "ISO", ColumnKind.Number);
    private static readonly TableColumn Bright = new("brightestTexturedEv", "Bright texture up to", ColumnKind.Figure);
    private static readonly TableColumn Third = new("brightestTexturedThirdEv", "In thirds", ColumnKind.Word);
    private static readonly TableColumn Clips = new("aboveEv", "Clips at", ColumnKind.Figure);
    private static readonly TableColumn First = new("limitingChannel", "First", ColumnKind.Word);

    /// <summary>Where tones may be placed, a row an ISO.</summary>
    /// <param name="body">The body.</param>
    public static ReportTable Placement(PocketBody body) => new(
        "placement",
        "Where tones may be placed, in EV from middle grey",
        [Iso, Bright, Third, new("darkestTexturedEv", "Texture down to", ColumnKind.Figure), Clips, First, new("darkestCleanEv", "Clean down to", ColumnKind.Figure), new("darkestToneEv", "Tone down to", ColumnKind.Figure)],
        [.. body.Isos.Select(iso => (IReadOnlyList<TableCell>)
            [TableCell.Whole(iso.Iso), .. Placed(iso.Lights[0]), Ev(iso.DarkestTexturedEv), .. Clip(iso.Lights[0]), Ev(iso.DarkestCleanEv), Ev(iso.DarkestToneEv)])]);

    /// <summary>What the camera's warnings mean, a row an ISO and look.</summary>
    /// <param name="body">The body.</param>
    public static ReportTable Previews(PocketBody body) => new(
        "previews",
        "What the camera's warnings mean, the most truthful look first",
        [Iso, new("look", "Look", ColumnKind.Words), new("blinksFromEv", "Blinks from", ColumnKind.Figure), new("hiddenHeadroomEv", "Raw holds above that", ColumnKind.Figure), new("highlightWarningPercent", "Stripes, set to %", ColumnKind.Figure)],
        [.. from iso in body.Isos
            from look in iso.Looks
            select (IReadOnlyList<TableCell>)[TableCell.Whole(iso.Iso), TableCell.Words(look.Look), Ev(look.BlinksFromEv), TableCell.Stops(look.HiddenHeadroomEv), Percent(look.HighlightWarningPercent)]]);

    /// <summary>The bright end under lights that were measured, a row an ISO and light.</summary>
    /// <param name="body">The body.</param>
    public static ReportTable Lights(PocketBody body) => new(
        "lights",
        "The bright end under other lights",
        [Iso, new("light", "Light", ColumnKind.Words), Bright, Third, Clips, First],
        [.. from iso in body.Isos
            from light in iso.Lights.Skip(1)
            select (IReadOnlyList<TableCell>)[TableCell.Whole(iso.Iso), TableCell.Words(light.Name), .. Placed(light), .. Clip(light)]]);

    /// <summary>What to dial in on a colleague's meter, a row an ISO.</summary>
    /// <param name="body">The colleague's body.</param>
    public static ReportTable DialIn(PocketBody body) => new(
        "dial-in",
        "Dial in on its meter, to clip as far above a tone as the body in hand",
        [Iso, new("nearestThirdEv", "In thirds", ColumnKind.Word), new("compensationEv", "Exactly", ColumnKind.Figure)],
        [.. body.DialIn.Select(dial => (IReadOnlyList<TableCell>)
            [TableCell.Whole(dial.Iso), new TableCell(StopWords.Thirds(dial.NearestThirdEv), dial.NearestThirdEv), Ev(dial.CompensationEv)])]);

    /// <summary>Which channel it is, in a photographer's word.</summary>
    /// <param name="channel">The channel; null where it is not known.</param>
    public static string ChannelWord(string? channel) => channel switch
    {
        ChannelName.Red => "red",
        ChannelName.Blue => "blue",
        ChannelName.FirstGreen or ChannelName.SecondGreen => "green",
        _ => TableCell.Nothing,
    };

    private static TableCell[] Placed(PocketLight light) => [Ev(light.BrightestTexturedEv), InThirds(light.BrightestTexturedEv)];

    private static TableCell[] Clip(PocketLight light) => [Ev(light.AboveEv), new TableCell(ChannelWord(light.LimitingChannel), light.LimitingChannel)];

    private static TableCell Ev(Figure? figure) => figure is null ? TableCell.Empty : new TableCell(EvText.Mark(EvMark.Above(figure)), figure);

    // What a meter shows at most: the third beneath.
    private static TableCell InThirds(Figure? brightest) => (brightest?.Value ?? brightest?.AtLeast) is { } ev
        ? new TableCell(StopWords.Thirds(ThirdStopScale.Floor(ev)), ThirdStopScale.Floor(ev))
        : TableCell.Empty;

    // A setting of the camera's: whole percent, and where no setting will do, that.
    private static TableCell Percent(Figure? percent) => percent switch
    {
        { AtLeast: >= NoSettingPercent } => new("none", percent),
        { AtLeast: { } bound } => new($"over {TableCell.Number(Math.Floor(bound), "0").Printed}", percent),
        { AtMost: { } bound } => new($"at most {TableCell.Number(Math.Ceiling(bound), "0").Printed}", percent),
        { Value: { } value } => new(
            string.Create(CultureInfo.InvariantCulture, $"{value:0} ±{FigureText.RoundedUp(Math.Max(percent.Upper95!.Value - value, value - percent.Lower95!.Value), 0):0}"), percent),
        _ => TableCell.Empty,
    };
}
