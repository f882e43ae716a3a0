using System.Globalization;
using SensorLab.Frames;

namespace SensorLab.Sets.Tests;

/// <summary>Frames without pixels: what a set looks like before one is read.</summary>
internal static class MadeUpSet
{
    public static readonly DateTimeOffset Start = new(2026, 4, 18, 9, 0, 0, TimeSpan.Zero);

    /// <summary>Six bracket exposures, a metered and a dark one, two frames each.</summary>
    public static List<SetFrame> Clean(params int[] isos)
    {
        var frames = new List<SetFrame>();
        foreach (int iso in isos.Length == 0 ? [100] : isos)
        {
            frames.AddRange(Pair(FrameRole.Dark, iso, 1.0 / 60));
            frames.AddRange(Pair(FrameRole.Metered, iso, 1.0 / 60));
            foreach (int stop in Enumerable.Range(-2, 6))
            {
                frames.AddRange(Pair(FrameRole.Bracket, iso, Math.Pow(2, stop) / 60));
            }
        }

        return [.. frames.Select((f, i) => f with
        {
            File = string.Create(CultureInfo.InvariantCulture, $"{f.File}{i:0000}.dng"),
            ContentKey = (ulong)(1000 + i),
            Raw = f.Raw with { Metadata = f.Raw.Metadata with { CaptureTime = Start.AddSeconds(i) } },
        })];
    }

    public static SetFrame Frame(FrameRole? role, int? iso, double? exposureSeconds, string file = "P", ulong key = 0) => new()
    {
        File = file,
        Role = role,
        ContentKey = key,
        Raw = new RawFrame
        {
            Metadata = new FrameMetadata
            {
                Iso = iso,
                ExposureSeconds = exposureSeconds,
                ApertureFNumber = 5.6,
                Maker = "Larkmoor",
                Model = "LM-2",
                SerialNumber = "20417",
                Firmware = "1.1",
                Metering = MeteringMode.Spot,
                ExposureCompensationEv = 0,
                Mode = new RecordingMode(BitDepth: 14, Compression: "uncompressed", Shutter: "mechanical"),
            },
            Layout = Layout(320, 240),
        },
    };

    public static MosaicLayout Layout(int width, int height) => new()
    {
        WidthPixels = width,
        HeightPixels = height,
        ActiveArea = new PixelRectangle(0, 0, width, height),
        ColourFilterArray = ColourFilterArray.Rggb,
        BitDepth = 14,
    };

    public static SetFrame With(this SetFrame frame, Func<FrameMetadata, FrameMetadata> change) =>
        frame with { Raw = frame.Raw with { Metadata = change(frame.Raw.Metadata) } };

    /// <summary>The set with the metadata of some of its frames changed.</summary>
    public static List<SetFrame> Change(this IEnumerable<SetFrame> frames, Func<SetFrame, bool> which, Func<FrameMetadata, FrameMetadata> change) =>
        [.. frames.Select(f => which(f) ? f.With(change) : f)];

    private static SetFrame[] Pair(FrameRole role, int iso, double exposureSeconds) =>
        [Frame(role, iso, exposureSeconds), Frame(role, iso, exposureSeconds)];
}
