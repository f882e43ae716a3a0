using SensorLab.Frames;
using SensorLab.Pixels.Field;

namespace SensorLab.Pixels.Tests.Field;

public sealed class MeasurementAreaTests
{
    /// <summary>Eight repeats a side are measured, of whatever pattern; fewer are refused.</summary>
    [Theory]
    [InlineData("RGGB", 16)]
    [InlineData(Patterns.SixBySixName, 48)]
    public void Of_SmallRegion_NeedsEightRepeatsASide(string pattern, int side)
    {
        var layout = new MosaicLayout { WidthPixels = 120, HeightPixels = 96, ActiveArea = new PixelRectangle(0, 0, 120, 96), BitDepth = 14, ColourFilterArray = ColourFilterArray.FromName(pattern)!.Value };

        Assert.Equal(new PixelRectangle(12, 12, side, side), MeasurementArea.Of(layout, new PixelRectangle(12, 12, side, side)).Region);
        Assert.Throws<ArgumentOutOfRangeException>(() => MeasurementArea.Of(layout, new PixelRectangle(12, 12, side - 1, side)));
        Assert.Throws<ArgumentOutOfRangeException>(() => MeasurementArea.Of(layout, new PixelRectangle(12, 12, side, side - 1)));
    }
}
