using System.Globalization;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Tables;

namespace SensorLab.Reports.Plans;

/// <summary>A plan's tables.</summary>
internal static class PlanTables
{
    /// <summary>The shot list with all that is known of each step.</summary>
    /// <param name="plan">The plan.</param>
    public static ReportTable Steps(ShotPlan plan) => new(
        "plan",
        PlanWords.Title(plan),
        [
            new("number", "Number", ColumnKind.Number),
            new("role", "Role", ColumnKind.Word),
            new("iso", "ISO", ColumnKind.Number),
            new("shutter", "Shutter", ColumnKind.Word),
            new("exposureSeconds", "Seconds", ColumnKind.Number),
            new("frames", "Frames", ColumnKind.Number),
            new("ev", "EV", ColumnKind.Number),
            new("lightStep", "Light step", ColumnKind.Word),
            new("lightStops", "Stops of light", ColumnKind.Number),
            new("light", "Light", ColumnKind.Word),
            new("look", "Look", ColumnKind.Words),
            new("ripplePercent", "Ripple (%)", ColumnKind.Number),
            new("actions", "Before it", ColumnKind.Words),
        ],
        [
            .. plan.Steps.Select(s => (IReadOnlyList<TableCell>)
            [
                TableCell.Whole(s.Number), TableCell.Words(s.Role), TableCell.Whole(s.Iso), TableCell.Words(s.Shutter), TableCell.Number(s.ExposureSeconds, "G3"),
                TableCell.Whole(s.Frames), TableCell.Number(s.Ev, "F1"), TableCell.Words(s.LightStep), TableCell.Number(s.LightStops, "F1"), TableCell.Words(s.Light),
                TableCell.Words(s.Look), TableCell.Number(s.RipplePercent, "F2"), TableCell.Words(PlanWords.ToDo(s)),
            ]),
        ]);

    /// <summary>What the set should give.</summary>
    /// <param name="plan">The plan.</param>
    public static ReportTable Prediction(ShotPlan plan) => new(
        "prediction",
        PlanWords.PredictionCaption(plan),
        [
            new("iso", "ISO", ColumnKind.Number),
            new("gainElectronPerDn", "Gain (e⁻/DN)", ColumnKind.Figure),
            new("readNoiseElectron", "Read noise (e⁻)", ColumnKind.Figure),
            new("aboveEv", "Clips at (EV from grey)", ColumnKind.Figure),
            new("belowEv", "SNR 10 at (EV from grey)", ColumnKind.Figure),
        ],
        [
            .. plan.Prediction.Select(p => (IReadOnlyList<TableCell>)
            [
                new TableCell(p.Iso.ToString(CultureInfo.InvariantCulture), (long)p.Iso),
                .. plan.IsForTypicalBody
                    ? new[] { ShareCell(p.GainElectronPerDn), ShareCell(p.ReadNoiseElectron), StopCell(p.AboveEv), StopCell(p.BelowEv) }
                    : [TableCell.Of(p.GainElectronPerDn.OfBody()), TableCell.Of(p.ReadNoiseElectron.OfBody()), TableCell.Above(p.AboveEv), TableCell.Below(p.BelowEv)],
            ]),
        ]);

    /// <summary>How sure a figure of a body that nobody named will be, as a share of itself.</summary>
    private static TableCell ShareCell(Figure? figure) => figure?.OfBody() is { Value: { } value, Upper95: { } upper }
        ? TableCell.Words(string.Create(CultureInfo.InvariantCulture, $"±{100 * FigureText.RoundedUp((upper - value) / value, 3):F1} %"))
        : TableCell.Empty;

    private static TableCell StopCell(Figure? figure) => figure?.OfBody() is { Value: { } value, Upper95: { } upper }
        ? TableCell.Words(string.Create(CultureInfo.InvariantCulture, $"±{FigureText.RoundedUp(upper - value, 2):F2}"))
        : TableCell.Empty;
}
