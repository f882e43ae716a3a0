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
            new("aboveEv", "Above grey (EV)", ColumnKind.Figure),
            new("belowEv", "Below grey, SNR 10 (EV)", ColumnKind.Figure),
            new("meterStandardUncertaintyEv", "Meter's part, ± (EV)", ColumnKind.Number),
        ],
        [
            .. plan.Prediction.Select(p => (IReadOnlyList<TableCell>)
            [
                new TableCell(p.Iso.ToString(CultureInfo.InvariantCulture), (long)p.Iso), FigureCell(p.GainElectronPerDn), FigureCell(p.ReadNoiseElectron), FigureCell(p.AboveEv), FigureCell(p.BelowEv),
                TableCell.Number(Figure.NormalFactor95 * p.MeterStandardUncertaintyEv, "F2"),
            ]),
        ]);

    private static TableCell FigureCell(Figure? figure) => figure is null ? TableCell.Empty : new TableCell(FigureText.WithInterval(figure, string.Empty), figure);
}
