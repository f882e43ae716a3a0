using SensorLab.Profiles;

namespace SensorLab.Reports.Tables;

/// <summary>The tables of what each ISO can hold.</summary>
internal static class LatitudeTables
{
    /// <summary>One row an ISO: both ends, the preview's, and whether they stand.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="review">What was made of it.</param>
    public static ReportTable Of(SensorProfile profile, ProfileReview review)
    {
        double[] criteria = [.. profile.IsoProfiles.SelectMany(i => i.Latitude.BelowEv).Select(e => e.Snr).Distinct().OrderDescending()];
        TableColumn[] columns =
        [
            new("iso", "ISO", ColumnKind.Number),
            TableColumn.Of(FigureDefinitions.Above),
            TableColumn.Of(FigureDefinitions.FirstClip),
            TableColumn.Of(FigureDefinitions.PreviewClip),
            .. criteria.Select(snr => TableColumn.Of(FigureDefinitions.Below(snr))),
            .. criteria.Select(snr => TableColumn.Of(FigureDefinitions.AtDelivery(snr))),
            TableColumn.Of(FigureDefinitions.BandsEnd),
            new("limitingChannel", "Saturates first", ColumnKind.Word),
            new("limitingChannelBelow", "Ends first below", ColumnKind.Word),
            new("meterStandardUncertaintyEv", "Meter's part, standard uncertainty (EV)", ColumnKind.Number),
            new("stands", "Does it stand?", ColumnKind.Words),
        ];
        return new ReportTable("latitude", "Usable latitude by ISO, in EV from middle grey, down is minus; ± is half the 95 % interval", columns,
            [.. profile.IsoProfiles.OrderBy(i => i.Iso).Select(iso => Row(iso, criteria, review))]);
    }

    /// <summary>One row an ISO, channel and criterion.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static ReportTable ShadowEnds(SensorProfile profile) => new(
        "shadow-ends",
        "Shadow ends by ISO, channel and criterion; the ISO's own are of the greens pooled",
        [
            new("iso", "ISO", ColumnKind.Number),
            new("channel", "Channel", ColumnKind.Word),
            new("snr", "SNR", ColumnKind.Number),
            TableColumn.Of(FigureDefinitions.Below(10)) with { Key = "perPixelEv", Title = "One pixel (EV from grey)" },
            TableColumn.Of(FigureDefinitions.Span),
            TableColumn.Of(FigureDefinitions.AtDelivery(10)) with { Key = "atDeliveryEv", Title = "At delivery (EV from grey)" },
        ],
        [
            .. from iso in profile.IsoProfiles.OrderBy(i => i.Iso)
               from set in iso.Channels.Select(c => (c.Name, c.Latitude.BelowEv)).Prepend(("greens pooled", iso.Latitude.BelowEv))
               from end in set.BelowEv
               select (IReadOnlyList<TableCell>)
               [
                   TableCell.Whole(iso.Iso),
                   TableCell.Words(set.Item1),
                   TableCell.Number(end.Snr, "0.##"),
                   TableCell.Below(end.PerPixel),
                   TableCell.Stops(end.SpanEv?.OfBody()),
                   TableCell.Below(end.AtDelivery),
               ],
        ]);

    private static IReadOnlyList<TableCell> Row(IsoProfile iso, double[] criteria, ProfileReview review)
    {
        ShadowEnd? EndOf(double snr) => iso.Latitude.BelowEv.FirstOrDefault(e => e.Snr == snr);
        return
        [
            TableCell.Whole(iso.Iso),
            TableCell.Above(iso.Latitude.AboveEv),
            TableCell.Above(iso.Latitude.FirstClipEv),
            TableCell.Above(iso.Previews.FirstOrDefault(p => p.ClipEv is not null)?.ClipEv),
            .. criteria.Select(snr => TableCell.Below(EndOf(snr)?.PerPixel)),
            .. criteria.Select(snr => TableCell.Below(EndOf(snr)?.AtDelivery)),
            TableCell.Below(iso.Latitude.BandsEndEv),
            TableCell.Words(iso.Latitude.LimitingChannel),
            TableCell.Words(iso.Latitude.LimitingChannelBelow),
            TableCell.Number(iso.MeterStandardUncertaintyEv, "0.000"),
            TableCell.Words(review.StateOf(iso.Iso)),
        ];
    }
}
