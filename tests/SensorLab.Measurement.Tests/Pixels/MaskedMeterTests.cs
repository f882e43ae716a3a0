using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Measurement.Pixels;

namespace SensorLab.Measurement.Tests.Pixels;

public sealed class MaskedMeterTests
{
    private const int Width = 40;
    private const int Height = 60;

    private static readonly MosaicLayout Layout = new()
    {
        WidthPixels = Width,
        HeightPixels = Height,
        ActiveArea = new PixelRectangle(9, 5, 31, 55),
        MaskedAreas = [new PixelRectangle(0, 5, 8, 55), new PixelRectangle(0, 0, Width, 4)],
        ColourFilterArray = ColourFilterArray.FromName("GRBG")!.Value,
        BitDepth = 14,
    };

    [Fact]
    public void MeanDnOf_SitesOfFourLevels_GoesByTheFiltersOfTheActiveArea()
    {
        MaskedMeter meter = MaskedMeter.Of([Layout])!;
        var row = new ushort[Width];
        for (int y = 0; y < Height; y++)
        {
            for (int x = 0; x < Width; x++)
            {
                // 100 by channel, one more in every second row of a channel; what is not masked would spoil it.
                bool isMasked = Layout.MaskedAreas.Any(area => area.Contains(new PixelRectangle(x, y, 1, 1)));
                int channel = (int)Layout.ColourFilterArray.ChannelAt(y - 5, x - 9);
                row[x] = (ushort)(isMasked ? (100 * (channel + 1)) + (y / 2 % 2) : 9999);
            }

            meter.AddRow(y, row);
        }

        foreach (SensorChannel channel in Layout.ColourFilterArray.Channels)
        {
            Estimate mean = meter.MeanDnOf(channel)!.Value;

            Assert.InRange(mean.Value, (100 * ((int)channel + 1)) + 0.3, (100 * ((int)channel + 1)) + 0.7);
            Assert.True(mean.StandardUncertainty > 0);
        }
    }

    [Fact]
    public void MeanDnOf_OneCodeEverywhere_IsNoMeasurement()
    {
        MaskedMeter meter = MaskedMeter.Of([Layout])!;
        var row = new ushort[Width];
        for (int y = 0; y < Height; y++)
        {
            meter.AddRow(y, row);
        }

        Assert.All(Layout.ColourFilterArray.Channels, channel => Assert.Null(meter.MeanDnOf(channel)));
    }

    [Fact]
    public void Of_NoMaskOrOneInsideTheActiveAreaOrUnlikeFrames_IsNone()
    {
        Assert.Null(MaskedMeter.Of([Layout with { MaskedAreas = [] }]));
        Assert.Null(MaskedMeter.Of([Layout with { MaskedAreas = [Layout.ActiveArea] }]));
        Assert.Null(MaskedMeter.Of([Layout, Layout with { MaskedAreas = [] }]));
        Assert.Null(MaskedMeter.Of([Layout with { MaskedAreas = [new PixelRectangle(0, 0, 8, 60), new PixelRectangle(0, 0, 40, 4)] }]));
    }
}
