using System.Globalization;
using SensorLab.Debrief;

namespace SensorLab.Cli.Presentation;

/// <summary>A debrief as a photographer reads it: the day at each ISO, the advice, the frames to look at first.</summary>
internal static class DebriefText
{
    private const int FramesNamed = 5;

    /// <summary>The lines.</summary>
    /// <param name="day">The day.</param>
    /// <param name="folder">Where its page was written.</param>
    public static IEnumerable<string> Lines(DayDebrief day, string folder) =>
    [
        .. BodyLine.Lines(day.Body, string.Create(CultureInfo.InvariantCulture, $"{day.Frames.Count} frames")),
        string.Empty,
        "   ISO  Frames  Clipped   Room left to the clip, EV       Below SNR 10",
        "                          middle half       median        median of frames",
        .. day.Isos.Select(iso => Row(iso, day)),
        string.Empty,
        .. day.Advice.SelectMany(advice => WrappedText.Lines(advice, string.Empty, "  ")),
        .. Previews(day),
        .. First(day),
        string.Empty,
        $"Page: {Path.Combine(folder, "debrief.html")}",
    ];

    private static string Row(IsoUse iso, DayDebrief day)
    {
        double[] sunk = [.. day.Frames.Where(f => f.Iso == iso.Iso).Select(f => f.ShadowPercent.Snr10).Order()];
        string half = iso is { LowerQuartileEv: { } low, UpperQuartileEv: { } high } ? string.Create(CultureInfo.InvariantCulture, $"{low:+0.0;-0.0;0.0} to {high:+0.0;-0.0;0.0}") : StopText.Absent;
        string median = iso.ExposeToClipEv switch
        {
            { Value: { } value, Upper95: { } upper } => string.Create(CultureInfo.InvariantCulture, $"{value:+0.0;-0.0;0.0} ±{Math.Ceiling((upper - value) * 10) / 10:0.0}"),
            { AtMost: { } bound } => string.Create(CultureInfo.InvariantCulture, $"{bound:+0.0;-0.0;0.0} or less"),
            _ => StopText.Absent,
        };
        return string.Create(CultureInfo.InvariantCulture, $"{iso.Iso,6}  {iso.Frames,6}  {iso.ClippedFrames,7}   {half,-17} {median,-13} {sunk[sunk.Length / 2],5:0.0} %");
    }

    private static IEnumerable<string> Previews(DayDebrief day)
    {
        int blew = day.Frames.Count(f => f.PreviewBlewRawHeld == true);
        int hid = day.Frames.Count(f => f.PreviewHidClipped == true);
        string[] parts =
        [
            .. blew > 0 ? [Counted(blew, "shows blown what the raw file holds", "show blown what the raw files hold")] : Array.Empty<string>(),
            .. hid > 0 ? [Counted(hid, "shows tone where the raw file is clipped", "show tone where the raw files are clipped")] : Array.Empty<string>(),
        ];
        return parts.Length == 0 ? [] : WrappedText.Lines($"Previews: {string.Join("; ", parts)}.", string.Empty, "  ");

        static string Counted(int count, string one, string many) => string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");
    }

    private static IEnumerable<string> First(DayDebrief day)
    {
        FrameDebrief[] first = [.. day.LookAtFirst().Take(FramesNamed)];
        if (first.Length == 0)
        {
            yield break;
        }

        yield return string.Empty;
        yield return "Look at first:";
        foreach (FrameDebrief frame in first)
        {
            string change = frame switch
            {
                { ExposeToClipEv: { } ev } when ev < 0 => string.Create(CultureInfo.InvariantCulture, $"{-ev:0.0} EV too much"),
                { ExposeToClipEv: { } ev } => string.Create(CultureInfo.InvariantCulture, $"{ev:0.0} EV left"),
                { ExposeToClipAtMostEv: { } most } => string.Create(CultureInfo.InvariantCulture, $"{-most:0.0} EV too much, or more"),
                _ => "no bright surface",
            };
            string clipped = frame.ClippedSurfacePercent > 0 ? string.Create(CultureInfo.InvariantCulture, $", {frame.ClippedSurfacePercent:0.#} % clipped") : string.Empty;
            yield return PlacementText.Printable($"  {frame.File}: {change}{clipped}{(frame.PreviewHidClipped == true ? ", and its preview hides it" : string.Empty)}");
        }
    }
}
