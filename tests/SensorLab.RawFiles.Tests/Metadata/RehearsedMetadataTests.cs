using SensorLab.Frames;
using SensorLab.RawFiles.Dng;
using SensorLab.RawFiles.Previews;
using SensorLab.RawFiles.Tests.Support;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;
using SensorLab.Simulation.Writing;

namespace SensorLab.RawFiles.Tests.Metadata;

/// <summary>What a rehearsed frame was said to be, its file says too: in every form that rehearsals are written in.</summary>
public sealed class RehearsedMetadataTests
{
    /// <summary>Exif's rationals hold exposure times to more digits than a shutter has.</summary>
    private const int ExposureDigits = 9;

    [Theory]
    [InlineData(DngCompression.None, "uncompressed", 14, 16)]
    [InlineData(DngCompression.None, "uncompressed", 12, 12)]
    [InlineData(DngCompression.Lossless, "lossless", 14, 14)]
    [InlineData(DngCompression.Deflate, "deflate", 14, 16)]
    public void Open_RehearsedFrame_SaysModeExposureAndBody(DngCompression compression, string name, int bits, int storedBits)
    {
        (PlannedFrame planned, byte[] file) = Rehearse(bits, new DngOptions { Compression = compression, BitsPerSample = storedBits });
        using var raw = new TemporaryFile(file);
        using DngMosaicReader reader = DngMosaicReader.Open(raw.Path);
        FrameMetadata said = reader.Frame.Metadata;
        FrameMetadata meant = planned.Raw.Metadata;

        Assert.Equal(new RecordingMode(BitDepth: bits, Compression: name), said.Mode);
        Assert.Equal((meant.Iso, meant.ApertureFNumber, meant.Maker, meant.Model), (said.Iso, said.ApertureFNumber, said.Maker, said.Model));
        Assert.Equal((meant.SerialNumber, meant.Firmware, meant.CaptureTime, meant.Metering), (said.SerialNumber, said.Firmware, said.CaptureTime, said.Metering));
        Assert.Equal(meant.ExposureSeconds!.Value, said.ExposureSeconds!.Value, ExposureDigits);
        Assert.False(said.FirmwareIsConverter);
    }

    [Fact]
    public void Extract_RehearsedFrame_IsItsEmbeddedPreviewUnlessTheBodyHasNone()
    {
        (_, byte[] shown) = Rehearse(14, new DngOptions());
        (_, byte[] bare) = Rehearse(14, new DngOptions(), look: null);
        using var withPreview = new TemporaryFile(shown);
        using var without = new TemporaryFile(bare);

        JpegSize size = JpegSize.Read(PreviewExtractor.Extract(withPreview.Path))!.Value;
        Assert.True(size.Area > 0);
        Assert.Null(PreviewExtractor.Extract(without.Path));
        string beside = Path.ChangeExtension(without.Path, ".jpg");
        File.WriteAllBytes(beside, PreviewExtractor.Extract(withPreview.Path)!);
        try
        {
            Assert.Equal(size, JpegSize.Read(PreviewExtractor.Extract(without.Path)));
        }
        finally
        {
            File.Delete(beside);
        }
    }

    private static (PlannedFrame Planned, byte[] File) Rehearse(int bits, DngOptions form) => Rehearse(bits, form, new PreviewLook());

    private static (PlannedFrame Planned, byte[] File) Rehearse(int bits, DngOptions form, PreviewLook? look)
    {
        double shrink = Math.Pow(2, 14 - bits);
        var body = new VirtualBody { WidthPixels = 96, HeightPixels = 64, BitDepth = bits, BlackLevelDn = 512 / shrink, Look = look };
        RehearsalPlan plan = RehearsalPlan.Of(new RehearsalOptions { Body = body, IsoValues = [100], Form = form });
        PlannedFrame frame = plan.Frames.First(f => f.Role == FrameRole.Bracket);
        return (frame, plan.Encode(frame));
    }
}
