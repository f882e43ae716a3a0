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

    // Greens beside red in their row and beside blue, drawn by hand: 1 and 2.
    [Theory]
    [InlineData("4x4:RRGGRRGGGGBBGGBB", "RR11RR1122BB22BB")]
    [InlineData("6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG", "2B21R1R1RB2B2B21R11R12B2B2BR1R1R12B2")]
    [InlineData("2x4:RGBGGBGR", "R1B22B1R")]
    [InlineData("1x3:RGB", "R1B")]
    [InlineData("3x1:RGB", "R1B")]
    [InlineData("2x2:RGBG", "R1B2")]
    [InlineData("2x2:RRGB", "RR1B")]
    public void ChannelAt_OtherPatterns_PutsG1BesideRed(string name, string channels)
    {
        ColourFilterArray array = ColourFilterArray.FromName(name)!.Value;

        Assert.Equal(name, array.Name);
        Assert.Equal(channels, string.Concat(Enumerable.Range(0, array.Rows * array.Columns).Select(i => array.ChannelAt(i / array.Columns, i % array.Columns) switch
        {
            SensorChannel.G1 => "1",
            SensorChannel.G2 => "2",
            var other => other.ToString(),
        })));
        Assert.Equal(array.ChannelAt(0, 0), array.ChannelAt(-array.Rows, 5 * array.Columns));
        Assert.Equal(channels.Contains('2', StringComparison.Ordinal) ? 4 : 3, array.Channels.Count);
        Assert.Equal(array.Rows * array.Columns, array.Channels.Sum(channel => array.SitesOf(channel).Count));
    }

    [Fact]
    public void Channels_EveryPatternOfSixPhotosites_AreThoseThatHaveAny()
    {
        int patterns = 0;
        for (int number = 0; number < 729; number++)
        {
            string letters = string.Concat(Enumerable.Range(0, 6).Select(i => "RGB"[number / (int)Math.Pow(3, i) % 3]));
            if (ColourFilterArray.FromPattern(2, 3, letters) is { } array)
            {
                patterns++;
                Assert.All(array.Channels, channel => Assert.NotEmpty(array.SitesOf(channel)));
                Assert.Equal(array.Rows * array.Columns, array.Channels.Sum(channel => array.SitesOf(channel).Count));
            }
        }

        Assert.Equal(540, patterns);
    }

    [Fact]
    public void Shifted_LargePattern_IsSeenFromThere()
    {
        ColourFilterArray array = ColourFilterArray.FromName("6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG")!.Value;

        ColourFilterArray shifted = array.Shifted(5, -2);

        Assert.All(Enumerable.Range(0, 100), i => Assert.Equal(array.ChannelAt((i / 10) + 5, (i % 10) - 2), shifted.ChannelAt(i / 10, i % 10)));
        Assert.Equal(array, shifted.Shifted(1, 2));
    }

    [Theory]
    [InlineData(4, 4, "RGRGGBGBRGRGGBGB", "RGGB")]
    [InlineData(8, 8, "RGRGRGRGGBGBGBGBRGRGRGRGGBGBGBGBRGRGRGRGGBGBGBGBRGRGRGRGGBGBGBGB", "RGGB")]
    [InlineData(2, 6, "RGBRGBRGBRGB", "1x3:RGB")]
    public void FromPattern_ThatRepeatsInItself_IsItsSmallestPart(int rows, int columns, string letters, string name) =>
        Assert.Equal(name, ColourFilterArray.FromPattern(rows, columns, letters)?.Name);

    [Theory]
    [InlineData(0, 0, "")]
    [InlineData(9, 1, "RGBRGBRGB")]
    [InlineData(2, 2, "RGG")]
    [InlineData(2, 2, "RGGW")]
    [InlineData(2, 2, "RRGG")]
    [InlineData(2, 2, "GGGG")]
    public void FromPattern_NoneOfRedGreenAndBlue_IsNull(int rows, int columns, string letters) =>
        Assert.Null(ColourFilterArray.FromPattern(rows, columns, letters));

    [Theory]
    [InlineData("")]
    [InlineData("6x6")]
    [InlineData("RGBG")]
    [InlineData("6x6:RGB")]
    [InlineData("-1x2:RG")]
    [InlineData("2x2x2:RGGB")]
    [InlineData("x:")]
    public void FromName_NoName_IsNull(string name) => Assert.Null(ColourFilterArray.FromName(name));
}
