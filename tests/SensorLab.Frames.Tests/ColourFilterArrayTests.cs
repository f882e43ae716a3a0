namespace SensorLab.Frames.Tests;

public sealed class ColourFilterArrayTests
{
    [Theory]
    [InlineData("RGGB", SensorChannel.R, SensorChannel.G1, SensorChannel.G2, SensorChannel.B)]
    [InlineData("BGGR", SensorChannel.B, SensorChannel.G2, SensorChannel.G1, SensorChannel.R)]
    [InlineData("GRBG", SensorChannel.G1, SensorChannel.R, SensorChannel.B, SensorChannel.G2)]
    [InlineData("GBRG", SensorChannel.G2, SensorChannel.B, SensorChannel.R, SensorChannel.G1)]
    public void ChannelAt_EveryBayerOrder_PutsG1BesideRed(string name, SensorChannel a, SensorChannel b, SensorChannel c, SensorChannel d)
    {
        ColourFilterArray array = ColourFilterArray.FromName(name)!.Value;

        Assert.Equal([a, b, c, d], new[] { array.ChannelAt(0, 0), array.ChannelAt(0, 1), array.ChannelAt(1, 0), array.ChannelAt(1, 1) });
        Assert.Equal(a, array.ChannelAt(-2, -4));
    }

    [Fact]
    public void Shifted_ByOneColumn_SwapsTheLettersOfARow()
    {
        Assert.Equal("GRBG", ColourFilterArray.Rggb.Shifted(0, 1).Name);
        Assert.Equal("BGGR", ColourFilterArray.Rggb.Shifted(1, 1).Name);
        Assert.Equal("RGGB", ColourFilterArray.Rggb.Shifted(-2, 4).Name);
    }

    [Fact]
    public void FirstSiteOf_ChannelTheArrayLacks_Throws() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ColourFilterArray.Rggb.FirstSiteOf(SensorChannel.Y));
}
