using SensorLab.Cli.Presentation;
using SensorLab.Profiles;

namespace SensorLab.Cli.Tests.Presentation;

public sealed class StopTextTests
{
    [Theory]
    [InlineData(3.312, 3.302, 3.322, "3.31 ±0.01")]
    [InlineData(3.312, 3.3019, 3.3219, "3.31 ±0.02")]
    [InlineData(3.312, 3.2, 3.322, "3.31 ±0.12")]
    [InlineData(-0.5, -0.51, -0.49, "-0.50 ±0.01")]
    [InlineData(-0.001, -0.002, 0, "0.00 ±0.01")]
    [InlineData(2, 2, 2, "2.00 ±0.00")]
    public void Of_Estimate_RoundsItsHalfWidthUp(double value, double lower, double upper, string text) =>
        Assert.Equal(text, StopText.Of(Figure.Estimate(value, 0.005, lower, upper)));

    [Fact]
    public void Of_Bounds_SaysSo()
    {
        Assert.Equal("at least 2.90", StopText.Of(Figure.LowerBound(2.9)));
        Assert.Equal("at most -1.25", StopText.Of(Figure.UpperBound(-1.25)));
    }

    [Fact]
    public void Of_Absent_IsADash() => Assert.Equal("-", StopText.Of(null));
}
