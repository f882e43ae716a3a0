using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Writing;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>What a virtual body writes into its frames about itself.</summary>
internal static class FrameDescription
{
    /// <summary>The description of one frame.</summary>
    public static RawFrame Of(VirtualCamera camera, VirtualIso setting, double seconds, DateTimeOffset time, DngOptions form, PreviewLook? look)
    {
        VirtualBody body = camera.Body;
        double plateau = body.BlackLevelDn + new SensorLaw(body, setting).SaturationDn;
        double black = body.DeclaredBlackDn ?? body.BlackLevelDn;
        return new RawFrame
        {
            Layout = camera.Layout with { BitDepth = form.BitsPerSample },
            Declared = new DeclaredLevels
            {
                BlackDn = camera.Layout.ColourFilterArray.Channels.ToDictionary(channel => channel, _ => black),
                WhiteDn = body.DeclaredWhiteDn ?? Math.Round(plateau),
            },
            Metadata = new FrameMetadata
            {
                Iso = setting.Iso,
                ExposureSeconds = seconds,
                ApertureFNumber = body.Shooting.ApertureFNumber,
                Maker = body.Maker,
                Model = body.Model,
                SerialNumber = body.SerialNumber,
                Firmware = body.Firmware,
                CaptureTime = time,
                Metering = MeteringMode.Spot,
                ExposureCompensationEv = 0,
                WhiteBalance = "manual",
                Look = look?.Name,
                Lens = "Larkmoor 50 mm",
                Mode = new RecordingMode(body.BitDepth, CompressionName(form.Compression)),
            },
        };
    }

    private static string CompressionName(DngCompression compression) => compression switch
    {
        DngCompression.Deflate => "deflate",
        DngCompression.Lossless => "lossless",
        _ => "uncompressed",
    };
}
