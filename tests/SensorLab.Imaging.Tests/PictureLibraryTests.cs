using OpenCvSharp;
using SensorLab.Frames;
using SensorLab.Imaging.OpenCv;
using SensorLab.Imaging.Skia;

namespace SensorLab.Imaging.Tests;

/// <summary>Skia beside OpenCV: a system that has only the one gets the same figures.</summary>
public sealed class PictureLibraryTests
{
    /// <summary>Two decoders may round the inverse transform and the colours' conversion apart.</summary>
    private const int CodesApart = 1;

    /// <summary>OpenCV's IMWRITE_JPEG_SAMPLING_FACTOR, which its wrapper does not name.</summary>
    private const int SamplingFactor = 7;

    [Theory]
    [InlineData(96, 64, false)]
    [InlineData(97, 131, true)]
    [InlineData(301, 203, true)]
    [InlineData(512, 401, false)]
    [InlineData(1203, 805, true)]
    public void Decode_SamePicture_GivesTheSameCodesWithinOne(int width, int height, bool isColourHalved)
    {
        byte[] jpeg = Scene(width, height, isColourHalved);
        var region = new PixelRectangle(width / 8, height / 8, width * 3 / 4, height * 3 / 4);

        JpegCodes first = JpegCodes.Of(new OpenCvLibrary(), jpeg, width, height, region);
        JpegCodes second = JpegCodes.Of(new SkiaLibrary(), jpeg, width, height, region);

        AssertSame(first.Red, second.Red);
        AssertSame(first.Green, second.Green);
        AssertSame(first.Blue, second.Blue);
    }

    [Fact]
    public void Decode_DamagedOrOfAnotherSize_IsNothingToBoth()
    {
        byte[] jpeg = Scene(64, 48, isColourHalved: false);
        foreach (IPictureLibrary library in new IPictureLibrary[] { new OpenCvLibrary(), new SkiaLibrary() })
        {
            Assert.Null(library.Decode([0xFF, 0xD8, 0xFF, 0xE0, 0, 0, 0xFF, 0xD9], 64, 48, 1));
            Assert.Null(library.Decode(jpeg, 63, 48, 1));
            using IDecodedPicture? whole = library.Decode(jpeg, 64, 48, 1);
            Assert.NotNull(whole);
        }
    }

    [Fact]
    public void Canvas_LinesAndCells_LieOnTheSamePixels()
    {
        using Mat first = Drawn(new OpenCvLibrary());
        using Mat second = Drawn(new SkiaLibrary());
        using var apart = new Mat();
        Cv2.Absdiff(first, second, apart);

        Assert.Equal((120, 90), (second.Width, second.Height));
        Assert.Equal(first.At<Vec3b>(3, 5), second.At<Vec3b>(3, 5));
        Assert.Equal(new Vec3b(0, 159, 230), first.At<Vec3b>(40, 20));
        Assert.Equal(new Vec3b(0, 159, 230), second.At<Vec3b>(40, 20));

        // Beside the line, whose ends are rounded in the one alone.
        Assert.Equal(0, Cv2.Norm(apart[new Rect(24, 0, 96, 60)], NormTypes.INF));
    }

    // Both middle steps of a quantile are looked at, so that a jump of the histogram is no difference.
    private static void AssertSame(IReadOnlyList<long> first, IReadOnlyList<long> second)
    {
        long total = first.Sum();
        Assert.Equal(total, second.Sum());
        for (int percent = 1; percent < 100; percent++)
        {
            Assert.InRange(Quantile(second, total, percent) - Quantile(first, total, percent), -CodesApart, CodesApart);
        }
    }

    private static int Quantile(IReadOnlyList<long> counts, long total, int percent)
    {
        long sum = 0;
        int code = 0;
        while ((sum += counts[code]) * 100 < total * percent)
        {
            code++;
        }

        return code;
    }

    // A slope of light across, another of colour down, and noise.
    private static byte[] Scene(int width, int height, bool isColourHalved)
    {
        using var picture = new Mat(height, width, MatType.CV_8UC3);
        var noise = new Random(width);
        for (int y = 0; y < height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                int light = (200 * x / width) + noise.Next(20);
                picture.Set(y, x, new Vec3b((byte)(light * y / height), (byte)light, (byte)(20 + (light * (height - y) / height))));
            }
        }

        int sampling = isColourHalved ? 0x221111 : 0x111111;
        Cv2.ImEncode(".jpg", picture, out byte[] jpeg, [new ImageEncodingParam(ImwriteFlags.JpegQuality, 92), new ImageEncodingParam((ImwriteFlags)SamplingFactor, sampling)]);
        return jpeg;
    }

    private static Mat Drawn(IPictureLibrary library)
    {
        using IFieldCanvas canvas = library.Canvas(4, 3, [.. Enumerable.Range(0, 12).Select(i => (byte)(20 * i))], factor: 30);
        canvas.Fill(new PixelRectangle(50, 10, 20, 15), new MarkColour(0, 0, 0));
        canvas.Line((20, 10), (20, 50), new MarkColour(230, 159, 0), thickness: 2);
        canvas.Write("spot", 0.5, (10, 85), new MarkColour(86, 180, 233));
        return Cv2.ImDecode(canvas.Png(), ImreadModes.Color);
    }
}
