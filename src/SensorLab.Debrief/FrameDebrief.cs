using SensorLab.Profiles;

namespace SensorLab.Debrief;

/// <summary>How one frame used the sensor. EV are from the metered middle grey of the profile's ISO, under the frame's own exposure.</summary>
public sealed record FrameDebrief
{
    /// <summary>Path inside the folder, with forward slashes.</summary>
    public required string File { get; init; }

    /// <summary>The frame's ISO.</summary>
    public required int Iso { get; init; }

    /// <summary>The ISO of the profile that it is held against.</summary>
    public required int ProfileIso { get; init; }

    /// <summary>Exposure time in seconds; null where the frame does not say.</summary>
    public double? ExposureSeconds { get; init; }

    /// <summary>Aperture as f-number; null where unknown.</summary>
    public double? ApertureFNumber { get; init; }

    /// <summary>When it was taken; null where it does not say.</summary>
    public DateTimeOffset? CaptureTime { get; init; }

    /// <summary>Photosites at or beyond the measured clip, in percent of their channel's; points of light and hot pixels included.</summary>
    public required IReadOnlyDictionary<string, double> ClippedPercent { get; init; }

    /// <summary>Share of the frame in percent whose surfaces clip in a channel; points of light and hot pixels are no surfaces.</summary>
    public required double ClippedSurfacePercent { get; init; }

    /// <summary>Stops from the brightest tone that covers a thousandth of the frame to the clip of the channel that clips first; 0 where it clips.</summary>
    public required double HeadroomLeftEv { get; init; }

    /// <summary>Standard uncertainty of the clip that headroom is counted to, in EV.</summary>
    public required double ClipStandardUncertaintyEv { get; init; }

    /// <summary>EV of the brightest surface that covers a thousandth of the frame and is not clipped, in green; null where there is none.</summary>
    public double? BrightTextureEv { get; init; }

    /// <summary>The channel that is nearest to its clip in that surface; null where there is none.</summary>
    public string? BrightTextureChannel { get; init; }

    /// <summary>
    /// The change of exposure that brings the brightest thousandth of the frame's surfaces to the clip: above 0 what was left
    /// unused, below 0 what was too much. Null where every channel clips, and nothing tells by how much.
    /// </summary>
    public double? ExposeToClipEv { get; init; }

    /// <summary>Where every channel of those surfaces clips, what it would be at most; null elsewhere.</summary>
    public double? ExposeToClipAtMostEv { get; init; }

    /// <summary>Whether <see cref="ExposeToClipEv"/> rests on a channel that did not clip, and on the colour of the bright surfaces beside.</summary>
    public required bool IsReckonedBeyondClip { get; init; }

    /// <summary>Share of the picture in percent where total SNR of a green photosite is below 10 and 4, as it was exposed.</summary>
    public required ShadowShare ShadowPercent { get; init; }

    /// <summary>The same if it had been exposed to the clip; null where that is not known.</summary>
    public ShadowShare? ShadowPercentAtClip { get; init; }

    /// <summary>EV of the brightest thousandth of the frame, in green.</summary>
    public required double BrightestEv { get; init; }

    /// <summary>EV of the frame's middle tone: half of it is darker.</summary>
    public required double MedianEv { get; init; }

    /// <summary>EV that a hundredth of the frame lies below, no lower than where SNR is 1.</summary>
    public required double DarkestEv { get; init; }

    /// <summary>Whether the preview shows blown what the raw file holds, over a thousandth of the frame or more; null without a preview.</summary>
    public bool? PreviewBlewRawHeld { get; init; }

    /// <summary>Whether the preview shows tone where the raw file is clipped, over a thousandth of the frame or more; null without a preview.</summary>
    public bool? PreviewHidClipped { get; init; }

    /// <summary>The small picture, with what clipped and what sank; null where it was not asked for.</summary>
    public FramePicture? Picture { get; init; }

    /// <summary>What must be known of this frame; most have none.</summary>
    public IReadOnlyList<Finding> Findings { get; init; } = [];
}
