using OpenCvSharp;
using SensorLab.Frames;

namespace SensorLab.Imaging.Tests;

/// <summary>The picture of the field: its size, its tones and what is drawn in it.</summary>
public sealed class FieldPictureTests
{
    private const int Width = 400;
    private const int Height = 300;
    private const ushort BlackDn = 512;

    private static readonly PixelRectangle Region = new(100, 40, 200, 200);
    private static readonly PixelRectangle Spot = new(176, 132, 48, 36);
    private static readonly Vec3b Orange = new(0, 159, 230);
    private static readonly Vec3b SkyBlue = new(233, 180, 86);

    [Fact]
    public void Png_SmallFrame_IsEnlargedByAWholeNumber()
    {
        using Mat picture = Drawn((_, _) => 1000);

        // Binned by 2 to 200 × 150, enlarged by 4 to 640 at least.
        Assert.Equal((800, 600), (picture.Width, picture.Height));
    }

    [Fact]
    public void Png_RegionAndSpot_AreOutlinedInTheirOwnColours()
    {
        using Mat picture = Drawn((_, _) => 1000);

        // Two pixels of the picture a photosite; the middle of the region's left side and a corner of the spot.
        Assert.Equal(Orange, picture.At<Vec3b>(2 * 150, 2 * 100));
        Assert.Equal(SkyBlue, picture.At<Vec3b>(2 * 132, 2 * 176));
        Assert.True(Count(picture, SkyBlue) < 2 * 2 * (2 * 2 * (Spot.Width + Spot.Height)), "The spot is dashed: less than a whole outline of two pixels, its label included.");
    }

    [Fact]
    public void Png_BrightAndDimHalves_KeepTheirOrder()
    {
        using Mat picture = Drawn((x, _) => x < Width / 2 ? 400 : 1600);

        // A quarter of the light is 1/4^(1/2.2) = 0.53 of the tone; white lies 1.25 times above the brightest.
        byte dim = picture.At<Vec3b>(590, 60).Item0;
        byte bright = picture.At<Vec3b>(590, 740).Item0;
        Assert.InRange(bright, 225, 235);
        Assert.InRange(dim / (double)bright, 0.51, 0.55);
    }

    [Fact]
    public void Png_WholeFrameAsRegion_IsDrawnInsideThePicture()
    {
        using Mat picture = Drawn((_, _) => 1000, new PixelRectangle(0, 0, Width, Height));

        Assert.Equal(Orange, picture.At<Vec3b>(300, 2));
        Assert.Equal(Orange, picture.At<Vec3b>(300, 797));
    }

    [Fact]
    public void Png_SameFrame_GivesTheSameBytes()
    {
        using var first = new MadeUpReader((_, _) => 1000);
        using var second = new MadeUpReader((_, _) => 1000);

        CancellationToken never = TestContext.Current.CancellationToken;
        Assert.Equal(FieldPicture.Png(first, Region, Spot, never), FieldPicture.Png(second, Region, Spot, never));
    }

    [Fact]
    public void Png_Cancelled_Stops()
    {
        using var reader = new MadeUpReader((_, _) => 1000);

        Assert.ThrowsAny<OperationCanceledException>(() => FieldPicture.Png(reader, Region, Spot, new CancellationToken(canceled: true)));
    }

    [Fact]
    public void ImagingLibraryMissing_Remedy_NamesTheInstallLine() =>
        Assert.Contains(OperatingSystem.IsLinux() ? "apt-get install libgtk-3-0" : "OpenCvSharp", new ImagingLibraryMissingException().Remedy, StringComparison.Ordinal);

    private static int Count(Mat picture, Vec3b colour)
    {
        int count = 0;
        (int width, int height) = (picture.Width, picture.Height);
        for (int y = 0; y < height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                count += picture.At<Vec3b>(y, x) == colour ? 1 : 0;
            }
        }

        return count;
    }

    private static Mat Drawn(Func<int, int, int> signal, PixelRectangle? region = null)
    {
        using var reader = new MadeUpReader(signal);
        return Cv2.ImDecode(FieldPicture.Png(reader, region ?? Region, Spot, TestContext.Current.CancellationToken), ImreadModes.Color);
    }

    private sealed class MadeUpReader(Func<int, int, int> signal) : IMosaicReader
    {
        private int _row;

        public RawFrame Frame { get; } = new()
        {
            Metadata = new FrameMetadata(),
            Layout = new MosaicLayout
            {
                WidthPixels = Width,
                HeightPixels = Height,
                ActiveArea = new PixelRectangle(0, 0, Width, Height),
                ColourFilterArray = ColourFilterArray.Rggb,
                BitDepth = 14,
            },
            Declared = new DeclaredLevels { BlackDn = ColourFilterArray.Rggb.Channels.ToDictionary(c => c, _ => (double)BlackDn) },
        };

        public int PreferredRows => 1;

        public void ReadRows(Span<ushort> rows)
        {
            for (int i = 0; i < rows.Length; i++)
            {
                rows[i] = (ushort)(BlackDn + signal(i % Width, _row + (i / Width)));
            }

            _row += rows.Length / Width;
        }

        public void Dispose()
        {
        }
    }
}
