using SensorLab.Frames;
using SensorLab.Measurement.Previews;

namespace SensorLab.Measurement.Tests.Previews;

public sealed class PreviewRegionTests
{
    // 60 × 40 photosites; the region is a tenth of each side, towards the top left.
    private static readonly PixelRectangle Region = new(12, 4, 30, 16);

    [Theory]
    [InlineData(60, 40, 0, 12, 4, 30, 16)]
    [InlineData(120, 80, 0, 24, 8, 60, 32)]
    [InlineData(30, 20, 0, 6, 2, 15, 8)]
    [InlineData(40, 60, 1, 20, 12, 16, 30)]
    [InlineData(60, 40, 2, 18, 20, 30, 16)]
    [InlineData(40, 60, 3, 4, 18, 16, 30)]
    [InlineData(40, 60, -1, 4, 18, 16, 30)]
    public void Of_SizeAndTurn_FollowsTheRegion(int width, int height, int turns, int x, int y, int regionWidth, int regionHeight) =>
        Assert.Equal(new PixelRectangle(x, y, regionWidth, regionHeight), PreviewRegion.Of(Region, 60, 40, width, height, turns));

    // At 0.3: from 3.6 to 12.6 and from 1.2 to 6.
    [Fact]
    public void Of_PartsOfPixels_KeepsWholeOnesInside() =>
        Assert.Equal(new PixelRectangle(4, 2, 8, 4), PreviewRegion.Of(Region, 60, 40, 18, 12, 0));

    [Fact]
    public void Of_BarsAboveAndBelow_KeepsWhatIsInsideEitherWay()
    {
        // 60 × 50 for 60 × 40: bars of 5 rows, or a frame cut at left and right and shown 1.25 times as large.
        PixelRectangle region = PreviewRegion.Of(Region, 60, 40, 60, 50, 0)!.Value;

        Assert.True(new PixelRectangle(12, 9, 30, 16).Contains(region));
        Assert.InRange(region.Area, 200, 480);
    }

    [Fact]
    public void Of_TooSmall_IsNull() => Assert.Null(PreviewRegion.Of(Region, 60, 40, 6, 4, 0));
}
