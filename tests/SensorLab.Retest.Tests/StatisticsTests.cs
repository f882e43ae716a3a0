namespace SensorLab.Retest.Tests;

public sealed class StatisticsTests
{
    [Theory]
    [InlineData("0.1ev", 0.1, MarginUnit.Ev)]
    [InlineData("2%", 0.02, MarginUnit.Relative)]
    [InlineData("1dn", 1, MarginUnit.Dn)]
    [InlineData(" 0.5 DN", 0.5, MarginUnit.Dn)]
    public void Margin_InWords_IsRead(string text, double size, MarginUnit unit) => Assert.Equal(new Margin(size, unit), Margin.Parse(text));

    [Theory]
    [InlineData("")]
    [InlineData("0.1")]
    [InlineData("ev")]
    [InlineData("-1dn")]
    [InlineData("0%")]
    [InlineData("1,5%")]
    [InlineData("nan ev")]
    public void Margin_ThatIsNone_IsNull(string text) => Assert.Null(Margin.Parse(text));

    [Theory]
    [InlineData("gain", MarginUnit.Relative)]
    [InlineData("aboveEv", MarginUnit.Relative)]
    [InlineData("readNoiseElectron", MarginUnit.Dn)]
    [InlineData("belowEv.snr10.sideways", MarginUnit.Ev)]
    public void Margins_OfNoFigureOrInAnotherUnit_AreRefused(string figure, MarginUnit unit) =>
        Assert.Throws<MarginException>(() => RetestMargins.Default.With(figure, new Margin(0.1, unit)));

    [Fact]
    public void Margins_OfALongerName_GoBeforeAShorterOnes()
    {
        RetestMargins margins = RetestMargins.Default
            .With("belowEv", new Margin(0.3, MarginUnit.Ev))
            .With("belowEv.snr10", new Margin(0.2, MarginUnit.Ev));

        Assert.Equal(0.2, margins.Of("belowEv.snr10.perPixel")!.Value.Size);
        Assert.Equal(0.3, margins.Of("belowEv.snr4.perPixel")!.Value.Size);
        Assert.Equal(0.15, margins.Of("previews.vivid.clipEv")!.Value.Size);
        Assert.Null(margins.Of("prnuPercent"));
    }
}
