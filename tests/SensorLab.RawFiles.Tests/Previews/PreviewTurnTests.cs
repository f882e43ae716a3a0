using SensorLab.RawFiles.LibRaw;
using SensorLab.RawFiles.Previews;
using SensorLab.RawFiles.Tests.LibRaw;

namespace SensorLab.RawFiles.Tests.Previews;

public sealed class PreviewTurnTests
{
    /// <summary>Turns that follow from the tag in the JPEG's own Exif and its shape, for a raw file without the tag.</summary>
    [Theory]
    [InlineData(null, 60, 40, 0)]
    [InlineData(1, 60, 40, 0)]
    [InlineData(3, 60, 40, 2)]
    [InlineData(6, 40, 60, 3)]
    [InlineData(8, 40, 60, 1)]
    [InlineData(null, 40, 60, 1)]
    [InlineData(6, 60, 40, 0)]
    public void Of_ExifAndShape_AgreeOrTheShapeDecides(int? orientation, int width, int height, int turns) =>
        Assert.Equal(turns, LibRawCalls.WithFile(ProofDng.Encode(), "a.dng", path =>
            PreviewTurn.Of(path, Jpeg(orientation), new JpegSize(width, height), isSensorWide: true)));

    [Fact]
    public void Of_ExifThatLies_CountsAsNone()
    {
        byte[] jpeg = Jpeg(6);
        jpeg[16] = 0xFF; // The first directory lies outside of the Exif block.

        Assert.Equal(0, LibRawCalls.WithFile(ProofDng.Encode(), "a.dng", path => PreviewTurn.Of(path, jpeg, new JpegSize(60, 40), isSensorWide: true)));
    }

    private static byte[] Jpeg(int? orientation) => orientation is { } tag
        ? [0xFF, 0xD8, 0xFF, 0xE1, 0, 34, .. "Exif\0\0"u8, .. "II*\0"u8, 8, 0, 0, 0, 1, 0, 0x12, 1, 3, 0, 1, 0, 0, 0, (byte)tag, 0, 0, 0, 0, 0, 0, 0, 0xFF, 0xDA, 0, 2]
        : [0xFF, 0xD8, 0xFF, 0xDA, 0, 2];
}
