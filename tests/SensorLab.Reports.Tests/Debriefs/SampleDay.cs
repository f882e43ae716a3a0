using SensorLab.Debrief;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Debriefs;

/// <summary>Made-up days of a made-up body.</summary>
internal static class SampleDay
{
    private const int Width = 120;
    private const int Height = 80;

    /// <summary>A day with every kind of frame, pictures as busy as a photograph's.</summary>
    public static DayDebrief Of(int frames)
    {
        var random = new Random(7);
        return DayDebrief.Of(SampleProfiles.ThreeIsos(), [.. Enumerable.Range(0, frames).Select(i => Frame(i, random))], [Left]);
    }

    /// <summary>A frame that was left out, with a name that is markup.</summary>
    public static Finding Left { get; } = new()
    {
        Code = FindingCode.BodyMixed,
        Severity = FindingSeverity.Warning,
        Frames = ["<script>alert(1)</script>.dng", "b.dng"],
        Message = "2 of 9 files: Shot with another body.",
        Remedy = "Name that body's own profile.",
    };

    private static FrameDebrief Frame(int i, Random random)
    {
        double change = (3 * random.NextDouble()) - 1;
        return new FrameDebrief
        {
            File = $"DCIM/{100 + (i / 500)}LMOOR/LMR_{i:0000}.DNG",
            Iso = new[] { 100, 400, 1600 }[i % 3],
            ProfileIso = new[] { 100, 400, 1600 }[i % 3],
            ExposureSeconds = 1.0 / (1 + (i % 250)),
            ApertureFNumber = i % 7 == 0 ? null : 5.6,
            CaptureTime = new DateTimeOffset(2026, 5, 9, 9, 0, 0, TimeSpan.Zero).AddSeconds(37 * (i * 7 % 4001)),
            ClippedPercent = new Dictionary<string, double> { ["R"] = 0, ["G1"] = 0.01 * (i % 40), ["G2"] = 0.01 * (i % 40), ["B"] = 0 },
            ClippedSurfacePercent = change < 0 ? -change : 0,
            HeadroomLeftEv = Math.Max(0, change),
            ClipStandardUncertaintyEv = 0.002,
            BrightTextureEv = i % 5 == 0 ? null : 3.2 - Math.Max(0, change),
            BrightTextureChannel = i % 5 == 0 ? null : "G1",
            ExposeToClipEv = i % 11 == 0 ? null : change,
            ExposeToClipAtMostEv = i % 11 == 0 ? -0.94 : null,
            IsReckonedBeyondClip = change < 0,
            ShadowPercent = new ShadowShare(10 * random.NextDouble(), random.NextDouble()),
            ShadowPercentAtClip = i % 11 == 0 ? null : new ShadowShare(1, 0),
            BrightestEv = Math.Min(3.2, 3.2 - change),
            MedianEv = -1.5,
            DarkestEv = -6 - random.NextDouble(),
            PreviewBlewRawHeld = i % 9 == 0 ? null : i % 13 == 0,
            PreviewHidClipped = i % 9 == 0 ? null : i % 17 == 0,
            Picture = Picture(i, random),
        };
    }

    private static FramePicture Picture(int number, Random random)
    {
        byte[] codes = new byte[Width * Height];
        (double fx, double fy, double phase) = (0.02 + (0.2 * random.NextDouble()), 0.02 + (0.2 * random.NextDouble()), 6 * random.NextDouble());
        for (int i = 0; i < codes.Length; i++)
        {
            double wave = Math.Sin((fx * (i % Width)) + phase) * Math.Cos(fy * (i / Width));
            codes[i] = wave > 0.97 ? FramePicture.Clipped : wave < -0.97 ? FramePicture.Sunk : (byte)Math.Clamp((80 * (1 + wave)) + random.Next(12), 0, 159);
        }

        return new FramePicture(Width, Height, number % 10 == 0 ? 1 : 0, codes);
    }
}
