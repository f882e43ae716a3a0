using OpenCvSharp;
using SensorLab.Frames;

namespace SensorLab.Imaging.Tests;

public sealed class JpegCodesTests
{
    /// <summary>A flat field at quality 95: the first coefficient's step of 2 or less moves a code by half at most, colour conversion by one.</summary>
    private const int CodecCodes = 1;

    /// <summary>Colour stored at half the size is drawn out over its neighbour's pixels.</summary>
    private const int Bleed = 2;

    [Theory]
    [InlineData(64, 48)]
    [InlineData(640, 480)]
    [InlineData(2048, 1365)]
    public void Of_HalvesOfTwoColours_CountsTheRegionsOwnAlone(int width, int height)
    {
        byte[] jpeg = Halves(width, height);

        JpegCodes left = JpegCodes.Of(jpeg, width, height, new PixelRectangle(0, height / 4, (width / 2 / 16 * 16) - Bleed, height / 2));
        JpegCodes right = JpegCodes.Of(jpeg, width, height, new PixelRectangle((((width / 2) + 15) / 16 * 16) + Bleed, height / 4, width / 4, height / 2));

        Assert.True(left.Green.Sum() >= Math.Min(width / 2 * (height / 2) / 2, 1000));
        AssertAll(30, left.Red);
        AssertAll(60, left.Green);
        AssertAll(90, left.Blue);
        AssertAll(200, right.Red);
        AssertAll(150, right.Green);
        AssertAll(100, right.Blue);
    }

    // Start, a baseline or a progressive frame's head (ITU-T T.81, B.2.2) of 12,000 × 9,000 pixels, end: told before anything is decoded.
    [Theory]
    [InlineData(0xC2, "progressive picture claims 12000 × 9000 pixels")]
    [InlineData(0xC0, "does not decode")]
    public void Of_LargeProgressivePicture_IsNotDecoded(byte frame, string reason)
    {
        byte[] jpeg = [0xFF, 0xD8, 0xFF, frame, 0, 11, 8, 9000 >> 8, 9000 & 0xFF, 12000 >> 8, 12000 & 0xFF, 1, 1, 0x11, 0, 0xFF, 0xD9];

        MalformedFileException thrown = Assert.Throws<MalformedFileException>(() => JpegCodes.Of(jpeg, 12000, 9000, new PixelRectangle(0, 0, 600, 600)));

        Assert.Contains(reason, thrown.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_ExifThatTurnsThePicture_CountsItAsStored()
    {
        byte[] jpeg = Halves(64, 48);
        byte[] exif = [0xFF, 0xE1, 0, 34, .. "Exif\0\0"u8, .. "II*\0"u8, 8, 0, 0, 0, 1, 0, 0x12, 1, 3, 0, 1, 0, 0, 0, 6, 0, 0, 0, 0, 0, 0, 0];
        byte[] turned = [.. jpeg[..2], .. exif, .. jpeg[2..]];

        AssertAll(60, JpegCodes.Of(turned, 64, 48, new PixelRectangle(0, 0, 32 - Bleed, 48)).Green);
    }

    [Fact]
    public void Of_PictureThatIsCutOff_IsMalformed()
    {
        byte[] jpeg = Halves(640, 480);

        Assert.Throws<MalformedFileException>(() => JpegCodes.Of(jpeg[..(jpeg.Length / 2)], 640, 480, new PixelRectangle(0, 0, 640, 480)));
    }

    [Fact]
    public void Of_NoPictureOrAnotherSize_IsMalformed()
    {
        Assert.Throws<MalformedFileException>(() => JpegCodes.Of([0xFF, 0xD8, 0xFF, 0xE0, 0, 0, 0xFF, 0xD9], 64, 48, new PixelRectangle(0, 0, 64, 48)));
        Assert.Throws<MalformedFileException>(() => JpegCodes.Of(Halves(64, 48), 128, 96, new PixelRectangle(0, 0, 64, 48)));
        Assert.Throws<MalformedFileException>(() => JpegCodes.Of(Halves(64, 48), 65_000, 65_000, new PixelRectangle(0, 0, 64, 48)));
    }

    [Fact]
    public void Of_RegionOutside_Throws()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => JpegCodes.Of(Halves(64, 48), 64, 48, new PixelRectangle(0, 0, 65, 48)));
        Assert.Throws<ArgumentOutOfRangeException>(() => JpegCodes.Of(Halves(64, 48), 64, 48, new PixelRectangle(0, 0, 0, 48)));
    }

    private static void AssertAll(int code, IReadOnlyList<long> counts) =>
        Assert.DoesNotContain(counts.Select((count, at) => (count, at)), c => c.count > 0 && Math.Abs(c.at - code) > CodecCodes);

    // Whole blocks of 16, so that no block holds both colours even where colour is stored at half the size.
    private static byte[] Halves(int width, int height)
    {
        using var picture = new Mat(height, width, MatType.CV_8UC3, new Scalar(90, 60, 30));
        int start = width / 2 / 16 * 16;
        using Mat right = picture[new Rect(start, 0, width - start, height)];
        right.SetTo(new Scalar(100, 150, 200));
        Cv2.ImEncode(".jpg", picture, out byte[] jpeg, [new ImageEncodingParam(ImwriteFlags.JpegQuality, 95)]);
        return jpeg;
    }
}
