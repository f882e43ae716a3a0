using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;

namespace SensorLab.Measurement.Previews;

/// <summary>Compares the camera's previews of an ISO with its raw files, look by look.</summary>
/// <remarks>
/// The tone curve is ISO 14524's opto-electronic conversion function, of the camera's own 8-bit codes whatever their colour
/// space: sRGB and Adobe RGB name the same codes clipped. Everything is computed from the level records alone, so that a
/// finished profile is fitted again to the same figures.
/// </remarks>
public static class PreviewEstimator
{
    /// <summary>Channels that end within this many standard uncertainties of each other end together.</summary>
    private const double Together = 2;

    /// <summary>The shadow end of the raw file with which the preview's is compared.</summary>
    private const double RawShadowSnr = EvAxis.TextureSnr;

    private const double PercentPerCode = 100.0 / (CodeMedian.Codes - 1);

    /// <summary>Finds every look's curve.</summary>
    /// <param name="iso">The ISO setting.</param>
    /// <param name="levels">Its level records with EV and preview codes.</param>
    /// <param name="channels">Its channels' figures.</param>
    /// <param name="latitude">Its latitude.</param>
    /// <returns>
    /// The looks, that with the smallest hidden part at both ends of the raw file first; a look whose preview adapts is left
    /// out, with a finding.
    /// </returns>
    public static (IReadOnlyList<PreviewProfile> Previews, IReadOnlyList<Finding> Findings) Of(
        int iso,
        IReadOnlyList<LevelRecord> levels,
        IReadOnlyList<ChannelProfile> channels,
        IsoLatitude latitude)
    {
        double greyEv = GreyUncertaintyEv(channels);
        List<PreviewProfile> previews = [];
        List<Finding> findings = [];
        foreach ((string look, IReadOnlyList<PreviewPoint> points) in new PreviewPoints(levels, channels).ByLook())
        {
            ToneCurve green = ToneCurve.Through(points.Select(p => new ToneNode(p.Ev, p.G)));
            if (PreviewConstancy.ChangeEv(points, green) is { } changeEv)
            {
                findings.Add(PreviewFindings.Adaptive(iso, look, changeEv));
                continue;
            }

            previews.Add(Of(look, points, green, latitude, greyEv));
        }

        return ([.. previews.OrderBy(HiddenEv)], findings);
    }

    private static PreviewProfile Of(string look, IReadOnlyList<PreviewPoint> points, ToneCurve green, IsoLatitude latitude, double greyEv)
    {
        (Figure clip, string? first, double? topCode) = FirstClip(points, green);
        Figure shadow = CurveEndEstimator.Dark(green).Ev;
        Figure? raw = latitude.BelowEv.FirstOrDefault(b => b.Snr == RawShadowSnr)?.PerPixel;
        return new PreviewProfile
        {
            Look = look,
            ClipEv = WithGrey(clip, greyEv),
            ClippingChannel = first,
            ShadowEndEv = WithGrey(shadow, greyEv),
            HiddenHeadroomEv = BoundedDifference.Of(latitude.AboveEv, clip),
            HiddenShadowEv = BoundedDifference.Of(shadow, Negated(raw)),
            HighlightWarningPercent = WarningPercent(green, clip, topCode, latitude.AboveEv),
            ToneCurve = [.. green.Nodes.Select(n => new ToneCurvePoint(n.Ev, n.Code))],
        };
    }

    /// <summary>The channel that reaches its highest code first; null for its name where others do so within chance of it.</summary>
    private static (Figure Ev, string? Channel, double? EndCode) FirstClip(IReadOnlyList<PreviewPoint> points, ToneCurve green)
    {
        (string Name, CurveEnd End)[] ends =
        [
            ("G", CurveEndEstimator.Bright(green)),
            ("R", CurveEndEstimator.Bright(ToneCurve.Through(points.Select(p => new ToneNode(p.Ev, p.R))))),
            ("B", CurveEndEstimator.Bright(ToneCurve.Through(points.Select(p => new ToneNode(p.Ev, p.B))))),
        ];
        (string name, CurveEnd first) = ends.MinBy(e => e.End.Ev.Value ?? e.End.Ev.AtMost ?? e.End.Ev.AtLeast);
        bool isAlone = first.Ev.Value is { } ev && ends.Where(e => e.Name != name).All(e =>
            (e.End.Ev.Value ?? e.End.Ev.AtLeast) - ev > Together * double.Hypot(first.Ev.StandardUncertainty!.Value, e.End.Ev.StandardUncertainty ?? 0));
        return (first.Ev, isAlone ? name : null, ends[0].End.EndCode);
    }

    /// <summary>Green's code at the brightest textured placement, in percent.</summary>
    private static Figure? WarningPercent(ToneCurve green, Figure clip, double? topCode, Figure? above)
    {
        if ((above?.Value ?? above?.AtLeast) - EvAxis.DefaultGuardEv is not { } target)
        {
            return null;
        }

        double code = green.CodeAt(target) ?? 0;
        bool isClipped = target >= (clip.Value ?? clip.AtMost ?? double.PositiveInfinity) || (topCode is { } top && code >= top - ToneCurve.CodeUncertainty);
        if (isClipped)
        {
            return Figure.LowerBound(PercentPerCode * (topCode ?? (CodeMedian.Codes - 1)));
        }

        if (green.SlopeAt(target) is not { } slope)
        {
            return null;
        }

        if (above!.Value is null)
        {
            return Figure.LowerBound(PercentPerCode * code);
        }

        double percent = PercentPerCode * code;
        double uncertainty = PercentPerCode * double.Hypot(ToneCurve.CodeUncertainty, slope * above.StandardUncertainty!.Value);
        double half = Figure.NormalFactor95 * uncertainty;
        return Figure.Estimate(percent, uncertainty, Math.Max(0, percent - half), Math.Min(100, percent + half));
    }

    // Hidden is what the raw file holds and the preview does not show; a preview that shows more hides nothing there.
    private static double HiddenEv(PreviewProfile preview) => Size(preview.HiddenHeadroomEv, true) + Size(preview.HiddenShadowEv, false);

    private static double Size(Figure? hidden, bool isNeeded) =>
        hidden is null ? (isNeeded ? double.PositiveInfinity : 0) : Math.Max(0, (hidden.Value ?? hidden.AtLeast ?? hidden.AtMost)!.Value);

    private static Figure WithGrey(Figure figure, double greyEv)
    {
        if (figure.Value is not { } value)
        {
            return figure;
        }

        double half = Figure.NormalFactor95 * greyEv;
        return Figure.Estimate(
            value,
            double.Hypot(figure.StandardUncertainty!.Value, greyEv),
            value - double.Hypot(value - figure.Lower95!.Value, half),
            value + double.Hypot(figure.Upper95!.Value - value, half));
    }

    private static Figure? Negated(Figure? figure) => BoundedDifference.Of(Figure.Estimate(0, 0, 0, 0), figure);

    // Middle grey is the greens'; both move with the same fixed pattern, so the larger uncertainty stands for both.
    private static double GreyUncertaintyEv(IReadOnlyList<ChannelProfile> channels) => channels
        .Where(c => ChannelName.IsPooled(c.Name))
        .Select(c => c.MiddleGreyDn is { Value: > 0 and { } grey, StandardUncertainty: { } uncertainty } ? uncertainty / grey / Math.Log(2) : 0)
        .Max();
}

/// <summary>What the previews of an ISO have to say beside their figures.</summary>
internal static class PreviewFindings
{
    public static Finding Adaptive(int iso, string look, double changeEv) => new()
    {
        Code = FindingCode.PreviewAdaptive,
        Severity = FindingSeverity.Note,
        Iso = iso,
        Size = changeEv,
        SizeUnit = "ev",
        Message = string.Create(
            CultureInfo.InvariantCulture,
            $"At ISO {iso} the preview of the look \"{look}\" is bent anew for each frame, by {changeEv:F2} EV: it has no curve to compare with the raw file, and no highlight warning can be set by it."),
        Remedy = "Switch off what adapts the picture to the scene (automatic contrast, shadow lifting, automatic exposure of the preview), and shoot the bracket again.",
    };
}
