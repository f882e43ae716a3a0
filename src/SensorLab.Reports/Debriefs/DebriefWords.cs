using System.Globalization;
using SensorLab.Debrief;
using SensorLab.Planning.Plans;
using SensorLab.Reports.Charts;

namespace SensorLab.Reports.Debriefs;

/// <summary>The words of a debrief's page.</summary>
internal static class DebriefWords
{
    /// <summary>How the words of the page are to be read.</summary>
    public static IReadOnlyList<string> HowToRead { get; } =
    [
        "The clip is the measured one of this ISO, not the level that the files declare. Room is counted from the brightest surface that covers a thousandth of the frame to where its first channel clips.",
        "A surface fills a square of three cells by three, of 8 photosites a side (up to 32 where the noise asks for it); a cell's tone leaves out its brightest and darkest photosite of each channel. Points of light, hot pixels and thin lines are no surfaces; they count in the clipped percent of photosites alone.",
        "Where a surface clips in some channels, how much it is over is reckoned from the others, by the colour of the frame's other bright surfaces; it assumes that what clipped has their colour. Where all channels clip, only a bound is left.",
        "Sunk: total SNR of a photosite below 4; sinking: below 10.",
    ];

    /// <summary>What a frame's brightest surfaces had left, or were over.</summary>
    public static string Room(FrameDebrief frame) => frame switch
    {
        { ExposeToClipEv: { } ev } when ev <= -0.05 => string.Create(CultureInfo.InvariantCulture, $"▲ {-ev:0.0} EV over"),
        { ExposeToClipEv: { } ev } when ev < 0.05 => "at the clip",
        { ExposeToClipEv: { } ev } => string.Create(CultureInfo.InvariantCulture, $"{ev:0.0} EV left"),
        { ExposeToClipAtMostEv: { } most } => string.Create(CultureInfo.InvariantCulture, $"▲ {-most:0.0} EV over, or more"),
        _ => "no surface of light",
    };

    /// <summary>The settings of a frame.</summary>
    public static string Settings(FrameDebrief frame)
    {
        string?[] parts =
        [
            string.Create(CultureInfo.InvariantCulture, $"ISO {frame.Iso}"),
            frame.ExposureSeconds is > 0 and { } seconds ? $"{ShutterTime.Nearest(seconds)?.Label ?? seconds.ToString("0.#####", CultureInfo.InvariantCulture)} s" : null,
            frame.ApertureFNumber is > 0 and { } aperture ? string.Create(CultureInfo.InvariantCulture, $"f/{aperture:0.#}") : null,
        ];
        return string.Join(" · ", parts.OfType<string>());
    }

    /// <summary>What sank and what clipped of a frame.</summary>
    public static string Shares(FrameDebrief frame) =>
        $"{(frame.ClippedSurfacePercent > 0 ? $"{Percent(frame.ClippedSurfacePercent)} clipped · " : string.Empty)}{Percent(frame.ShadowPercent.Snr4)} sunk · {Percent(frame.ShadowPercent.Snr10)} sinking";

    /// <summary>What the preview pretended; null where it told the truth or there is none.</summary>
    public static string? Preview(FrameDebrief frame) =>
        frame.PreviewHidClipped == true ? "Its preview hides what clipped"
        : frame.PreviewBlewRawHeld == true ? "Its preview shows blown what is held"
        : null;

    /// <summary>The picture in words.</summary>
    public static string Alternative(FrameDebrief frame) =>
        $"{frame.File}: {Room(frame)}; {Shares(frame)}; from {EvText.Signed(frame.DarkestEv, 1)} to {EvText.Signed(frame.BrightestEv, 1)} EV";

    private static string Percent(double percent) => percent switch
    {
        0 => "0 %",
        < 0.1 => "<0.1 %",
        < 10 => string.Create(CultureInfo.InvariantCulture, $"{percent:0.0} %"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{percent:0} %"),
    };
}
