using SensorLab.Frames;

namespace SensorLab.RawFiles.Tests;

public sealed class UnsuitableRecordingTests
{
    [Theory]
    [InlineData("lossless", false, null, 2.0, null)]
    [InlineData("lossy", false, null, 0.01, "with loss")]
    [InlineData("lossy", true, null, 0.01, null)]
    [InlineData(null, false, "on", 0.5, null)]
    [InlineData(null, false, "on", 1.0, "long-exposure noise reduction")]
    [InlineData(null, false, "off", 30.0, null)]
    [InlineData(null, false, "auto", 30.0, null)]
    [InlineData(null, false, "on", null, null)]
    public void Refuse_ByWhatTheFrameSays_NamesTheReason(string? compression, bool isCompanded, string? noiseReduction, double? seconds, string? reason)
    {
        var frame = new RawFrame
        {
            Metadata = new FrameMetadata { ExposureSeconds = seconds, Mode = new RecordingMode(Compression: compression, NoiseReduction: noiseReduction) },
            IsCompanded = isCompanded,
            Layout = new MosaicLayout
            {
                WidthPixels = 64,
                HeightPixels = 64,
                ActiveArea = new PixelRectangle(0, 0, 64, 64),
                ColourFilterArray = ColourFilterArray.Monochrome,
                BitDepth = 14,
            },
        };

        UnsupportedFileException? refusal = (UnsupportedFileException?)Record.Exception(() => UnsuitableRecording.Refuse(frame));

        Assert.Equal(reason is null, refusal is null);
        Assert.Contains(reason ?? "", refusal?.Message ?? "", StringComparison.Ordinal);
        Assert.True(refusal?.IsUnsuitable ?? true);
    }
}
