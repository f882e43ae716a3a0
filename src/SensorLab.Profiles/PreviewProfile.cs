namespace SensorLab.Profiles;

/// <summary>What the camera's 8-bit preview shows in one look.</summary>
public sealed record PreviewProfile
{
    /// <summary>The picture setting in force.</summary>
    public required string Look { get; init; }

    /// <summary>EV at which the preview clips in any channel.</summary>
    public Figure? ClipEv { get; init; }

    /// <summary>EV at which the preview's shadows close.</summary>
    public Figure? ShadowEndEv { get; init; }

    /// <summary>What the raw file holds above the preview's clip, in EV.</summary>
    public Figure? HiddenHeadroomEv { get; init; }

    /// <summary>The percentage at which a highlight warning appears at the brightest textured placement.</summary>
    public Figure? HighlightWarningPercent { get; init; }

    /// <summary>Green's opto-electronic conversion function (ISO 14524).</summary>
    public IReadOnlyList<ToneCurvePoint> ToneCurve { get; init => field = value ?? []; } = [];
}
