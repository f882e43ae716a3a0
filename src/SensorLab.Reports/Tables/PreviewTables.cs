using SensorLab.Profiles;

namespace SensorLab.Reports.Tables;

/// <summary>The tables of the camera's previews and of other lights.</summary>
internal static class PreviewTables
{
    /// <summary>One row an ISO and look.</summary>
    /// <param name="isos">The ISOs.</param>
    public static ReportTable Looks(IEnumerable<IsoProfile> isos) => new(
        "previews",
        "The camera's previews, the most truthful look first",
        [
            new("iso", "ISO", ColumnKind.Number),
            new("look", "Look", ColumnKind.Words),
            TableColumn.Of(FigureDefinitions.PreviewClip),
            TableColumn.Of(FigureDefinitions.PreviewShadow),
            TableColumn.Of(FigureDefinitions.HiddenHeadroom),
            TableColumn.Of(FigureDefinitions.HighlightWarning),
        ],
        [
            .. from iso in isos
               from preview in iso.Previews
               select (IReadOnlyList<TableCell>)
               [
                   TableCell.Whole(iso.Iso),
                   TableCell.Words(preview.Look),
                   TableCell.Stops(preview.ClipEv),
                   TableCell.Stops(preview.ShadowEndEv),
                   TableCell.Stops(preview.HiddenHeadroomEv),
                   TableCell.Of(preview.HighlightWarningPercent),
               ],
        ]);

    /// <summary>The tone curves.</summary>
    /// <param name="isos">The ISOs.</param>
    public static ReportTable ToneCurves(IEnumerable<IsoProfile> isos) => new(
        "tone-curves",
        "Tone curves of the previews: green's mean code, 0 to 255",
        [
            new("iso", "ISO", ColumnKind.Number),
            new("look", "Look", ColumnKind.Words),
            new("ev", "EV", ColumnKind.Number),
            new("code", "Code", ColumnKind.Number),
        ],
        [
            .. from iso in isos
               from preview in iso.Previews
               from point in preview.ToneCurve.OrderBy(p => p.Ev)
               select (IReadOnlyList<TableCell>)
                   [TableCell.Whole(iso.Iso), TableCell.Words(preview.Look), TableCell.Number(point.Ev, "0.00"), TableCell.Number(point.Code, "0.0")],
        ]);

    /// <summary>How other lights move the channels.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static ReportTable Lights(SensorProfile profile)
    {
        string[] channels = [.. profile.Lights.SelectMany(l => l.ChannelEv.Keys).Distinct().Order(StringComparer.Ordinal)];
        return new ReportTable(
            "lights",
            "How other lights move the channels against green, in EV",
            [new("light", "Light", ColumnKind.Words), .. channels.Select(c => new TableColumn(c + "Ev", c, ColumnKind.Number))],
            [
                .. profile.Lights.Select(light => (IReadOnlyList<TableCell>)
                    [TableCell.Words(light.Name), .. channels.Select(c => TableCell.Number(light.ChannelEv.TryGetValue(c, out double ev) ? ev : null, "0.00"))]),
            ]);
    }
}
