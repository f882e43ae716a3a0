using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Pixels.Field;

namespace SensorLab.Pixels.Tests.Field;

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

    /// <summary>Sites counted one by one, each by the filter that the active area's pattern has there.</summary>
    [Theory]
    [InlineData("GRBG")]
    [InlineData(Patterns.QuadName)]
    [InlineData(Patterns.SixBySixName)]
    public void MeanDnOf_SitesOfAllChannels_IsTheirMeanByTheFiltersOfTheActiveArea(string pattern)
    {
        MosaicLayout layout = Layout with { ColourFilterArray = ColourFilterArray.FromName(pattern)!.Value };
        MaskedMeter meter = MaskedMeter.Of([layout])!;
        var sites = new List<(SensorChannel Channel, int Code)>();
        var row = new ushort[Width];
        for (int y = 0; y < Height; y++)
        {
            for (int x = 0; x < Width; x++)
            {
                // Every channel's own hundred, uneven along rows and columns; what is not masked would spoil it.
                bool isMasked = layout.MaskedAreas.Any(area => area.Contains(new PixelRectangle(x, y, 1, 1)));
                SensorChannel channel = layout.ColourFilterArray.ChannelAt(y - 5, x - 9);
                row[x] = (ushort)(isMasked ? (100 * ((int)channel + 1)) + (x * x % 7) + (y * y % 5) : 9999);
                if (isMasked)
                {
                    sites.Add((channel, row[x]));
                }
            }

            meter.AddRow(y, row);
        }

        foreach (SensorChannel channel in layout.ColourFilterArray.Channels)
        {
            Estimate mean = meter.MeanDnOf(channel)!.Value;

            Assert.Equal(sites.Where(s => s.Channel == channel).Average(s => s.Code), mean.Value, 1e-9);
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
