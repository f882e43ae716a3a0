using System.Text.Json.Serialization;

namespace SensorLab.Profiles;

/// <summary>What the camera's 8-bit preview shows in one look.</summary>
public sealed record PreviewProfile
{
    /// <summary>The picture setting in force.</summary>
    public required string Look { get; init; }

    /// <summary>EV at which the preview clips in any channel.</summary>
    public Figure? ClipEv { get; init; }

    /// <summary>The preview's channel that clips first: R, G or B; null where the clip is a bound or the channels clip together.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ClippingChannel { get; init; }

    /// <summary>EV at which the preview's shadows close.</summary>
    public Figure? ShadowEndEv { get; init; }

    /// <summary>
    /// What the raw file holds above the preview's clip, in EV: how far beneath the raw clip the camera's blinking warning begins.
    /// </summary>
    public Figure? HiddenHeadroomEv { get; init; }

    /// <summary>
    /// What the raw file holds with texture (SNR 10) below where the preview's shadows close, in EV; negative where the
    /// preview shows shadows deeper than that.
    /// </summary>
    public Figure? HiddenShadowEv { get; init; }

    /// <summary>
    /// The percentage at which a highlight warning appears at the brightest textured placement, in percent of code 255;
    /// a lower bound where the preview clips before that placement, so that no setting can mark it.
    /// </summary>
    public Figure? HighlightWarningPercent { get; init; }

    /// <summary>Green's opto-electronic conversion function (ISO 14524).</summary>
    public IReadOnlyList<ToneCurvePoint> ToneCurve { get; init => field = value ?? []; } = [];
}
