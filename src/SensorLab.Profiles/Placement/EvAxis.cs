namespace SensorLab.Profiles.Placement;

/// <summary>The EV axis of one ISO of one body under one light: where a tone may be put, and what it keeps there.</summary>
/// <remarks>
/// Tones are EV from middle grey as the camera's spot meter reads them. Every figure that places a tone carries the
/// meter's uncertainty in quadrature with the sensor's, since this is advice on location (measurement model, sections 5
/// and 8). Bounds carry neither. It is the sensor's latitude: flare of lens and scene comes on top.
/// </remarks>
public sealed class EvAxis
{
    /// <summary>The guard below saturation, in EV: a surface's own peaks above its spot average, and a meter step.</summary>
    public const double DefaultGuardEv = 2.0 / 3;

    /// <summary>The SNR at which shadows are clean.</summary>
    public const double CleanSnr = 20;

    /// <summary>The SNR at which shadows hold texture.</summary>
    public const double TextureSnr = 10;

    /// <summary>The SNR at which shadows hold tone only.</summary>
    public const double ToneSnr = 4;

    private readonly IsoProfile _iso;
    private readonly BrightEnd _brightEnd;
    private readonly SnrInterpolation _snr;

    private EvAxis(IsoProfile iso, BrightEnd brightEnd, double? meterStandardUncertaintyEv)
    {
        _iso = iso;
        _brightEnd = brightEnd;
        _snr = new SnrInterpolation(iso.SnrCurve);
        MeterStandardUncertaintyEv = meterStandardUncertaintyEv;
        GreyStandardUncertaintyEv = OfGrey(iso) ?? meterStandardUncertaintyEv;
    }

    /// <summary>The axis of an ISO under a light.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="iso">An ISO that was measured.</param>
    /// <param name="light">A light of the profile; null for the one under which the set was shot.</param>
    /// <exception cref="IsoUnmeasuredException">The ISO was not measured; its neighbours are named, never interpolated.</exception>
    /// <exception cref="ArgumentException">The profile has no light of that name.</exception>
    public static EvAxis Of(SensorProfile profile, int iso, string? light = null)
    {
        IsoProfile found = profile.IsoProfiles.FirstOrDefault(p => p.Iso == iso)
            ?? throw IsoUnmeasuredException.Of(profile, iso);
        LightRatios? ratios = light is null ? null
            : profile.Lights.FirstOrDefault(l => l.Name == light)
                ?? throw new ArgumentException($"The profile has no light \"{light}\". {LightsOf(profile)}", nameof(light));
        return new EvAxis(
            found,
            ratios is null ? BrightEnd.UnderMeteredLight(found) : BrightEnd.Under(ratios, found),
            found.MeterStandardUncertaintyEv ?? profile.MiddleGrey.MeterStandardUncertaintyEv);
    }

    /// <summary>The ISO.</summary>
    public int Iso => _iso.Iso;

    /// <summary>The meter's part of the uncertainty in EV; null where middle grey was not metered, and then not included.</summary>
    public double? MeterStandardUncertaintyEv { get; }

    /// <summary>By how much middle grey moves from set to set, in EV: meter, shutter, lamp and diaphragm. Of a profile without budgets the meter's part; null where middle grey was not metered.</summary>
    public double? GreyStandardUncertaintyEv { get; }

    /// <summary>EV from middle grey to where the first channel saturates under this light, the meter included.</summary>
    public Figure? AboveEv => OfBody(_brightEnd.AboveEv);

    /// <summary>The channel that saturates first under this light; null where it is not known.</summary>
    public string? LimitingChannel => _brightEnd.LimitingChannel;

    /// <summary>Under a light that was not measured, the most that <see cref="AboveEv"/> can be: green's own; null for a monochrome sensor.</summary>
    public Figure? AboveAnyLightEv => BrightEnd.UnderAnyLight(_iso);

    /// <summary>EV from a tone to saturation; negative for a tone that clips.</summary>
    /// <param name="toneEv">The tone, in EV from middle grey.</param>
    /// <returns>Above − tone, with sensor and meter; a bound where <see cref="AboveEv"/> is one, null where it is absent.</returns>
    public Figure? HeadroomEv(double toneEv) => AboveEv?.Shifted(-toneEv);

    /// <summary>Whether a tone clips: no headroom left.</summary>
    /// <param name="toneEv">The tone, in EV from middle grey.</param>
    /// <returns>By the estimate's value; null where a bound leaves it open.</returns>
    public bool? Clips(double toneEv) => HeadroomEv(toneEv) switch
    {
        { Value: { } headroom } => headroom <= 0,
        { AtLeast: > 0 } => false,
        { AtMost: <= 0 } => true,
        _ => null,
    };

    /// <summary>Total SNR of one pixel of the two greens pooled (Y in monochrome) at a tone.</summary>
    /// <param name="toneEv">The tone, in EV from middle grey.</param>
    /// <returns>With the curve's uncertainty and the meter's, by the curve's slope; null where the tone clips or lies off the curve.</returns>
    public Figure? SnrAt(double toneEv) =>
        Clips(toneEv) != true && _snr.At(toneEv) is { } at
            ? SnrInterpolation.PowerOfTwo(at.Log2.Widened(Math.Abs(at.SlopePerEv) * (GreyStandardUncertaintyEv ?? 0)))
            : null;

    /// <summary>Where a bright textured surface may sit at most, by its spot reading.</summary>
    /// <param name="guardEv">The guard below saturation in EV, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The guard is negative or not finite.</exception>
    public Figure? BrightestTexturedEv(double guardEv = DefaultGuardEv)
    {
        RequireGuard(guardEv);
        return AboveEv?.Shifted(-guardEv);
    }

    /// <summary>How deep a shadow may fall: signed EV at which total SNR of one pixel falls to a criterion.</summary>
    /// <param name="snr">A criterion that the profile states, as <see cref="CleanSnr"/>, <see cref="TextureSnr"/> or <see cref="ToneSnr"/>.</param>
    /// <returns>With sensor and meter; an upper bound where the bracket ended first; null where the profile does not state it.</returns>
    public Figure? DarkestEv(double snr) => OfBody(DarkEnd(snr));

    /// <summary>Whether a scene fits with texture at both ends (SNR 10 in the shadows), and the exposure to set.</summary>
    /// <param name="lowEv">The darkest textured spot reading, in EV from middle grey.</param>
    /// <param name="highEv">The brightest textured spot reading, no lower than <paramref name="lowEv"/>.</param>
    /// <param name="guardEv">The guard below saturation in EV, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, the guard negative, or the scene upside down.</exception>
    public SceneFit Fit(double lowEv, double highEv, double guardEv = DefaultGuardEv)
    {
        RequireGuard(guardEv);
        RequireScene(lowEv, highEv);
        Figure? bright = _brightEnd.AboveEv?.Shifted(-guardEv);
        Figure? dark = DarkEnd(TextureSnr);
        Figure? room = dark is null ? null : bright?.Plus(dark.Negated())?.Shifted(lowEv - highEv);
        double? highest = (bright?.Value ?? bright?.AtLeast) - highEv;
        double? lowest = (dark?.Value ?? dark?.AtMost) - lowEv;
        return new SceneFit
        {
            Fits = room switch
            {
                { Value: { } left } => left >= 0,
                { AtLeast: >= 0 } => true,
                { AtMost: < 0 } => false,
                _ => null,
            },
            RoomEv = room,
            LowestShiftEv = lowest,
            HighestShiftEv = highest,
            ExposureShiftEv = lowest is { } from && highest is { } to ? Math.Min(to, Math.Max(from, 0)) : null,
        };
    }

    /// <summary>What exposing so that a bright tone reaches saturation would gain in a shadow tone's SNR, and cost in correction.</summary>
    /// <param name="brightEv">The tone to bring to saturation, in EV from middle grey as metered.</param>
    /// <param name="shadowEv">The shadow tone whose SNR counts, in EV from middle grey as metered; null for none.</param>
    /// <returns>
    /// The gain's uncertainty takes that of the exposure change by the curve's slope and both curve points as independent,
    /// which errs on the wide side. With a lower bound for saturation the gain is at least, the correction at most.
    /// </returns>
    public ClipExposure ExposeToClip(double brightEv, double? shadowEv)
    {
        Figure? change = HeadroomEv(brightEv);
        return new ClipExposure
        {
            GainEv = change is not null && shadowEv is { } shadow ? GainEv(change, shadow) : null,
            CorrectionEv = change?.Negated(),
        };
    }

    private Figure? GainEv(Figure change, double shadowEv)
    {
        double size = (change.Value ?? change.AtLeast ?? change.AtMost)!.Value;
        if (_snr.At(shadowEv) is not { } before || _snr.At(shadowEv + size) is not { } after)
        {
            return null;
        }

        Figure gain = after.Log2.Plus(before.Log2.Negated())!;
        return change switch
        {
            { Value: not null } => gain.Widened(Math.Abs(after.SlopePerEv) * change.StandardUncertainty!.Value),
            { AtLeast: not null } => Figure.LowerBound(gain.Value!.Value),
            _ => Figure.UpperBound(gain.Value!.Value),
        };
    }

    private Figure? DarkEnd(double snr) => _iso.Latitude.BelowEv.FirstOrDefault(e => e.Snr == snr)?.PerPixel?.Negated();

    /// <summary>A figure from middle grey with all that a second set would respect.</summary>
    /// <param name="figure">By its budget; without one, its own uncertainty and middle grey's.</param>
    internal Figure? OfBody(Figure? figure) => figure is { Budget: not null } ? figure.OfBody() : figure?.Widened(GreyStandardUncertaintyEv ?? 0);

    /// <summary>Middle grey's part of the budgets, which all ends share; null without any.</summary>
    private static double? OfGrey(IsoProfile iso) => ((Figure?[])[iso.Latitude.AboveEv, .. iso.Latitude.BelowEv.Select(e => e.PerPixel)]).Select(f => f?.Budget).FirstOrDefault(b => b is not null) is { } budget
        ? Math.Sqrt(budget.Parts.Where(p => p.Source is not (BudgetSource.Sampling or BudgetSource.Temperature)).Sum(p => p.StandardUncertainty * p.StandardUncertainty))
        : null;

    private static string LightsOf(SensorProfile profile) => profile.Lights.Count == 0
        ? "It has none but the one under which the set was shot."
        : $"It has {string.Join(", ", profile.Lights.Select(l => $"\"{l.Name}\""))}.";

    private static void RequireGuard(double guardEv)
    {
        if (!double.IsFinite(guardEv) || guardEv < 0)
        {
            throw new ArgumentOutOfRangeException(nameof(guardEv), guardEv, "A guard is finite and 0 or more.");
        }
    }

    private static void RequireScene(double lowEv, double highEv)
    {
        if (!double.IsFinite(lowEv) || !double.IsFinite(highEv) || lowEv > highEv)
        {
            throw new ArgumentOutOfRangeException(nameof(highEv), highEv, "A scene runs from its dark to its bright end.");
        }
    }
}
