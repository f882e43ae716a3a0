using System.Text.Json;
using SensorLab.Debrief;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of a debrief: every frame, the day, and the findings as a sensor profile holds them.</summary>
/// <param name="Frames">The frames that the profile can speak for, by path.</param>
/// <param name="Summary">The day.</param>
/// <param name="Findings">What was left out and why, the worst first.</param>
internal sealed record DebriefDocument(IReadOnlyList<DebriefDocument.FrameEntry> Frames, DebriefDocument.Day Summary, IReadOnlyList<Finding> Findings)
{
    /// <summary>EV, percent and stops are told to four decimals: far below what they are known to.</summary>
    private const int Decimals = 4;

    /// <summary>Writes the document.</summary>
    public static void Write(TextWriter output, DayDebrief day)
    {
        var document = new DebriefDocument(
            [.. day.Frames.Select(Of)],
            new Day(day.Frames.Count, day.ClippedFrames, Rounded(day.MedianHeadroomLeftEv), day.Advice, [.. day.Isos.Select(i => new IsoDay(
                i.Iso, i.Frames, i.ClippedFrames, i.UnknownFrames, i.ExposeToClipEv, Rounded(i.LowerQuartileEv), Rounded(i.UpperQuartileEv)))]),
            day.Findings);
        output.Write(JsonSerializer.Serialize(document, DocumentJson.WithNulls.DebriefDocument) + "\n");
    }

    private static FrameEntry Of(FrameDebrief f) => new(
        f.File,
        f.Iso,
        f.ProfileIso,
        f.ClippedPercent.ToDictionary(c => c.Key, c => Rounded(c.Value)),
        Rounded(f.ClippedSurfacePercent),
        Rounded(f.HeadroomLeftEv),
        Rounded(f.BrightTextureEv),
        f.BrightTextureChannel,
        Of(f.ShadowPercent),
        f.PreviewBlewRawHeld,
        f.PreviewHidClipped,
        Rounded(f.ExposeToClipEv),
        Rounded(f.ExposeToClipAtMostEv),
        f.ShadowPercentAtClip is { } share ? Of(share) : null,
        Rounded(f.BrightestEv),
        Rounded(f.MedianEv),
        Rounded(f.DarkestEv),
        f.Findings);

    private static Shadow Of(ShadowShare share) => new(Rounded(share.Snr10), Rounded(share.Snr4));

    private static double Rounded(double number) => Math.Round(number, Decimals);

    private static double? Rounded(double? number) => number is { } known ? Rounded(known) : null;

    /// <summary>A frame.</summary>
    internal sealed record FrameEntry(
        string File,
        int Iso,
        int ProfileIso,
        IReadOnlyDictionary<string, double> ClippedPercent,
        double ClippedSurfacePercent,
        double HeadroomLeftEv,
        double? BrightTextureEv,
        string? BrightTextureChannel,
        Shadow ShadowPercent,
        bool? PreviewBlewRawHeld,
        bool? PreviewHidClipped,
        double? ExposeToClipEv,
        double? ExposeToClipAtMostEv,
        Shadow? ShadowPercentAtClip,
        double BrightestEv,
        double MedianEv,
        double DarkestEv,
        IReadOnlyList<Finding> Findings);

    /// <summary>Share of a picture in its shadows, in percent.</summary>
    internal sealed record Shadow(double Snr10, double Snr4);

    /// <summary>The day.</summary>
    internal sealed record Day(int Frames, int ClippedFrames, double? MedianHeadroomLeftEv, IReadOnlyList<string> Advice, IReadOnlyList<IsoDay> Isos);

    /// <summary>The day at an ISO.</summary>
    internal sealed record IsoDay(int Iso, int Frames, int ClippedFrames, int UnknownFrames, Figure? ExposeToClipEv, double? LowerQuartileEv, double? UpperQuartileEv);
}
