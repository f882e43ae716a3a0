using SensorLab.Profiles;
using SensorLab.Reports.Charts;

namespace SensorLab.Reports.Tables;

/// <summary>The tables behind the charts of levels.</summary>
internal static class LevelTables
{
    private static readonly TableColumn IsoColumn = new("iso", "ISO", ColumnKind.Number);
    private static readonly TableColumn ChannelColumn = new("channel", "Channel", ColumnKind.Word);
    private static readonly TableColumn EvColumn = new("ev", "EV", ColumnKind.Number);

    /// <summary>Variance against mean: what the noise model rests on.</summary>
    /// <param name="isos">The ISOs.</param>
    public static ReportTable PhotonTransfer(IEnumerable<IsoProfile> isos) => new(
        "photon-transfer",
        "Mean and temporal variance of every level and channel, with the residual against the profile's own model in standard uncertainties",
        [
            IsoColumn,
            ChannelColumn,
            new("dark", "Light", ColumnKind.Word),
            new("signalDn", "Signal above black (DN)", ColumnKind.Number),
            new("temporalVarianceDn2", FigureDefinitions.Variance.Title, ColumnKind.Number),
            new("residual", "Residual", ColumnKind.Number),
            new("leftOut", "In the fit", ColumnKind.Words),
        ],
        [
            .. from iso in isos
               from channel in iso.Channels
               from point in PhotonTransferChannel.From(iso, channel).Points
               select (IReadOnlyList<TableCell>)
               [
                   TableCell.Whole(iso.Iso),
                   TableCell.Words(channel.Name),
                   TableCell.Words(point.IsDark ? "dark" : "lit"),
                   TableCell.Number(point.SignalDn, "0.00"),
                   TableCell.Number(point.VarianceDn2, "0.####"),
                   TableCell.Number(point.Residual, "0.00"),
                   TableCell.Words(point.LeftOut is null ? "used" : $"left out: {point.LeftOut}"),
               ],
        ]);

    /// <summary>Signal against exposure.</summary>
    /// <param name="isos">The ISOs.</param>
    public static ReportTable Response(IEnumerable<IsoProfile> isos) => new(
        "response",
        "Signal against exposure, and its distance from a straight line",
        [
            IsoColumn,
            ChannelColumn,
            new("exposureSeconds", "Exposure (s)", ColumnKind.Number),
            new("apertureFNumber", "Aperture (f/)", ColumnKind.Number),
            new("lightStep", "Light step", ColumnKind.Word),
            EvColumn with { Key = "exposureEv", Title = "Exposure (EV)" },
            new("signalDn", "Signal above black (DN)", ColumnKind.Number),
            new("deviationPercent", "Off the line (%)", ColumnKind.Number),
            new("counts", "Counts", ColumnKind.Word),
        ],
        [
            .. from iso in isos
               from point in ResponseSeries.Of(iso)
               select (IReadOnlyList<TableCell>)
               [
                   TableCell.Whole(iso.Iso),
                   TableCell.Words(point.Channel),
                   TableCell.Number(point.Level.ExposureSeconds, "0.#######"),
                   TableCell.Number(point.Level.ApertureFNumber, "0.0"),
                   TableCell.Words(point.Level.LightStep),
                   TableCell.Number(point.ExposureEv, "0.00"),
                   TableCell.Number(point.SignalDn, "0.00"),
                   TableCell.Number(point.DeviationPercent, "0.000"),
                   TableCell.Words(point.Counts ? "yes" : "no"),
               ],
        ]);

    /// <summary>Fixed pattern by pixel, row and column.</summary>
    /// <param name="isos">The ISOs.</param>
    public static ReportTable FixedPattern(IEnumerable<IsoProfile> isos) => new(
        "fixed-pattern",
        "Fixed pattern by pixel, row and column, as standard deviations in DN; a part not found is given as at most",
        [
            IsoColumn,
            ChannelColumn,
            EvColumn,
            new("signalDn", "Signal above black (DN)", ColumnKind.Number),
            new("temporalDn", "Temporal (DN)", ColumnKind.Number),
            new("fixedPixelDn", "Pixel (DN)", ColumnKind.Figure),
            new("fixedRowDn", "Row (DN)", ColumnKind.Figure),
            new("fixedColumnDn", "Column (DN)", ColumnKind.Figure),
        ],
        [
            .. from iso in isos
               from point in FixedPatternChart.Points(iso)
               select (IReadOnlyList<TableCell>)
               [
                   TableCell.Whole(iso.Iso),
                   TableCell.Words(point.Channel),
                   TableCell.Number(point.Ev, "0.00"),
                   TableCell.Number(point.SignalDn, "0.00"),
                   TableCell.Number(point.TemporalDn, "0.###"),
                   PartOf(point.Pixel),
                   PartOf(point.Row),
                   PartOf(point.Column),
               ],
        ]);

    /// <summary>SNR against EV.</summary>
    /// <param name="isos">The ISOs.</param>
    public static ReportTable Snr(IEnumerable<IsoProfile> isos) => new(
        "snr",
        "SNR of one pixel of the greens pooled, from the noise model",
        [
            IsoColumn,
            EvColumn,
            new("snrTotal", "SNR, total", ColumnKind.Figure),
            new("snrTemporal", "SNR, temporal noise alone", ColumnKind.Figure),
        ],
        [
            .. from iso in isos
               from point in iso.SnrCurve.OrderBy(p => p.Ev)
               select (IReadOnlyList<TableCell>)
                   [TableCell.Whole(iso.Iso), TableCell.Number(point.Ev, "0.00"), TableCell.Of(point.SnrTotal), TableCell.Of(point.SnrTemporal)],
        ]);

    private static TableCell PartOf(PatternPart part)
    {
        if (!part.IsFound)
        {
            return TableCell.Of(Figure.UpperBound(part.SizeDn));
        }

        (double lower, double upper) = part.Interval95;
        return TableCell.Of(Figure.Estimate(part.SizeDn, part.UncertaintyDn2 / (2 * part.SizeDn), lower, upper));
    }
}
