using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>Every ISO's bright end and shadow ends on one EV ruler, apart from its drawing.</summary>
/// <param name="Heading">The words that stand with it.</param>
/// <param name="Axis">The ruler: EV, middle grey at 0.</param>
/// <param name="Lens">The axis of the magnified 95 % intervals: EV from the estimate.</param>
/// <param name="Rows">One row an ISO, in rising order.</param>
internal sealed record LatitudeRulerModel(
    ChartHeading Heading, ChartAxis Axis, ChartAxis Lens, IReadOnlyList<LatitudeRow> Rows)
{
    // Half-widths of the lens in EV; the smallest that holds every interval is taken, so that rows compare.
    private static readonly double[] LensHalfWidths = [0.02, 0.05, 0.1, 0.2, 0.5, 1, 2];

    /// <summary>Builds the model.</summary>
    /// <param name="profile">The sensor profile, with one ISO or more.</param>
    public static LatitudeRulerModel From(SensorProfile profile)
    {
        LatitudeRow[] rows = [.. profile.IsoProfiles.OrderBy(iso => iso.Iso).Select(RowOf)];
        double[] ends = [.. rows.SelectMany(row => row.Marks).SelectMany(mark => new[] { mark.Lower95, mark.Upper95 })];
        var axis = ChartAxis.Ev(ends.DefaultIfEmpty(-1).Min(), ends.DefaultIfEmpty(1).Max());
        var heading = new ChartHeading(
            "Usable latitude by ISO", ProfileText.Body(profile), LatitudeSentence.Of(rows), AlternativeText(rows));
        return new LatitudeRulerModel(heading, axis, LensAxis(rows), rows);
    }

    private static LatitudeRow RowOf(IsoProfile iso)
    {
        PreviewProfile? preview = iso.Previews.FirstOrDefault(p => p.ClipEv is not null);
        return new LatitudeRow
        {
            Iso = iso.Iso,
            BrightEnd = EvMark.Above(iso.Latitude.AboveEv),
            LimitingChannel = iso.Latitude.LimitingChannel,
            FirstClip = EvMark.Above(iso.Latitude.FirstClipEv),
            PreviewClip = EvMark.Above(preview?.ClipEv),
            PreviewLook = preview?.Look,
            MeterStandardUncertaintyEv = iso.Latitude.AboveEv?.Budget is null ? iso.MeterStandardUncertaintyEv : null,
            ShadowEnds = [.. iso.Latitude.BelowEv
                .OrderByDescending(end => end.Snr)
                .Select(end => new ShadowMark(end.Snr, EvMark.Below(end.PerPixel)))],
        };
    }

    private static ChartAxis LensAxis(LatitudeRow[] rows)
    {
        double widest = rows.SelectMany(row => new[] { row.BrightEnd, row.ShadowEnd }).OfType<EvMark>()
            .Select(mark => mark.HalfWidthEv).DefaultIfEmpty(0).Max();
        double half = LensHalfWidths.FirstOrDefault(width => width >= widest, LensHalfWidths[^1]);
        int decimals = half < 0.1 ? 2 : half < 1 ? 1 : 0;
        return new ChartAxis("95 % interval", "EV", AxisScale.Linear, -half, half,
        [
            new AxisTick(-half, EvText.Signed(-half, decimals)),
            new AxisTick(0, "0"),
            new AxisTick(half, EvText.Signed(half, decimals)),
        ]);
    }

    private static string AlternativeText(LatitudeRow[] rows) =>
        "Ruler in EV with middle grey at 0, headroom to the right, shadow to the left; one row an ISO. " +
        string.Join(' ', rows.Select(row => string.Create(
            CultureInfo.InvariantCulture,
            $"ISO {row.Iso}: shadow end at SNR 10 {EvText.Mark(row.ShadowEnd)}, bright end {EvText.Mark(row.BrightEnd)}.")));
}
