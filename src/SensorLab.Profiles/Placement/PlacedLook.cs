namespace SensorLab.Profiles.Placement;

/// <summary>Where the camera's warnings appear in one look, in EV from middle grey, whatever the exposure.</summary>
public sealed record PlacedLook
{
    /// <summary>A whole code's rounding, as a standard uncertainty in codes: half of one over √3.</summary>
    private const double CodeUncertainty = 0.28867513459481287;

    private const double HighestCode = 255;
    private const double WholePercent = 100;

    /// <summary>The look.</summary>
    public required string Look { get; init; }

    /// <summary>From where the blinking clip warning blinks, the meter included.</summary>
    public Figure? BlinksFromEv { get; init; }

    /// <summary>What the raw file still holds there, under the light of the set.</summary>
    public Figure? HiddenHeadroomEv { get; init; }

    /// <summary>At which percentage the striped highlight warning marks the limit of bright texture.</summary>
    public Figure? HighlightWarningPercent { get; init; }

    /// <summary>Every look of an ISO, the most truthful first.</summary>
    /// <param name="axis">The axis of the ISO.</param>
    /// <param name="iso">The ISO's profile.</param>
    internal static IReadOnlyList<PlacedLook> Of(EvAxis axis, IsoProfile iso) =>
    [
        .. iso.Previews.Select(p => new PlacedLook
        {
            Look = p.Look,
            BlinksFromEv = axis.OfBody(p.ClipEv),
            HiddenHeadroomEv = p.HiddenHeadroomEv,
            HighlightWarningPercent = p.HighlightWarningPercent,
        }),
    ];

    /// <summary>From where a striped highlight warning appears that is set to a percentage, as many bodies offer them in steps of five.</summary>
    /// <param name="preview">The look.</param>
    /// <param name="percent">The setting, in percent of code 255.</param>
    /// <param name="greyStandardUncertaintyEv">By how much middle grey moves from set to set in EV (<see cref="EvAxis.GreyStandardUncertaintyEv"/>); null where it is not known.</param>
    /// <returns>
    /// EV from middle grey at which green's tone curve first rises to the percentage, straight between its points, with
    /// middle grey's uncertainty and the rounding of the codes; null where the curve does not pass it. Red or blue may reach it before green.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">The percentage is not finite.</exception>
    public static Figure? WarningFromEv(PreviewProfile preview, double percent, double? greyStandardUncertaintyEv)
    {
        if (!double.IsFinite(percent))
        {
            throw new ArgumentOutOfRangeException(nameof(percent), percent, "A percentage is finite.");
        }

        double code = percent * HighestCode / WholePercent;
        ToneCurvePoint[] curve = [.. preview.ToneCurve.OrderBy(p => p.Ev)];
        int upper = Array.FindIndex(curve, p => p.Code >= code);
        if (upper < 1)
        {
            return null;
        }

        (ToneCurvePoint low, ToneCurvePoint high) = (curve[upper - 1], curve[upper]);
        double evPerCode = (high.Ev - low.Ev) / (high.Code - low.Code);
        double grey = greyStandardUncertaintyEv ?? 0;
        double uncertainty = Math.Sqrt((grey * grey) + (CodeUncertainty * evPerCode * CodeUncertainty * evPerCode));
        double value = low.Ev + ((code - low.Code) * evPerCode);
        return Figure.Normal(value, uncertainty);
    }
}
