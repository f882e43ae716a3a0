namespace SensorLab.Profiles.Placement;

/// <summary>What the camera's preview makes of a tone in one look, beside what the raw file holds.</summary>
public sealed record PreviewPretence
{
    /// <summary>The look.</summary>
    public required string Look { get; init; }

    /// <summary>Green's code of the tone, 0 to 255; null outside of the measured curve.</summary>
    public double? ToneCode { get; init; }

    /// <summary>Whether the preview shows the tone clipped; null where a bound leaves it open.</summary>
    public bool? ShowsClipped { get; init; }

    /// <summary>Whether the preview shows the tone black; null where a bound leaves it open.</summary>
    public bool? ShowsBlack { get; init; }

    /// <summary>EV from which the camera's blinking clip warning blinks, the meter included.</summary>
    public Figure? ClipEv { get; init; }

    /// <summary>What the raw file still holds there, under the light of the set.</summary>
    public Figure? HiddenHeadroomEv { get; init; }

    /// <summary>At which percentage to set the highlight warning, for the default guard and the light of the set.</summary>
    public Figure? HighlightWarningPercent { get; init; }

    /// <summary>What every look of an ISO makes of a tone, the most truthful look first.</summary>
    /// <param name="axis">The axis of the ISO.</param>
    /// <param name="iso">The ISO's profile.</param>
    /// <param name="toneEv">The tone, in EV from middle grey.</param>
    internal static IReadOnlyList<PreviewPretence> Of(EvAxis axis, IsoProfile iso, double toneEv) =>
    [
        .. iso.Previews.Select(p => new PreviewPretence
        {
            Look = p.Look,
            ToneCode = CodeAt(p.ToneCurve, toneEv),
            ShowsClipped = IsBeyond(p.ClipEv, toneEv),
            ShowsBlack = IsBeyond(p.ShadowEndEv?.Negated(), -toneEv),
            ClipEv = axis.OfBody(p.ClipEv),
            HiddenHeadroomEv = p.HiddenHeadroomEv,
            HighlightWarningPercent = p.HighlightWarningPercent,
        }),
    ];

    private static bool? IsBeyond(Figure? end, double ev) => end switch
    {
        { Value: { } value } => ev >= value,
        { AtLeast: { } bound } when ev < bound => false,
        { AtMost: { } bound } when ev >= bound => true,
        _ => null,
    };

    // Straight between measured points: less than a code off at thirds of a stop, two at whole stops.
    private static double? CodeAt(IReadOnlyList<ToneCurvePoint> curve, double ev)
    {
        ToneCurvePoint[] points = [.. curve.OrderBy(p => p.Ev)];
        int upper = Array.FindIndex(points, p => p.Ev >= ev);
        if (upper < 0 || (upper == 0 && points[0].Ev > ev))
        {
            return null;
        }

        if (upper == 0 || points[upper].Ev <= points[upper - 1].Ev)
        {
            return points[upper].Code;
        }

        double share = (ev - points[upper - 1].Ev) / (points[upper].Ev - points[upper - 1].Ev);
        return ((1 - share) * points[upper - 1].Code) + (share * points[upper].Code);
    }
}
