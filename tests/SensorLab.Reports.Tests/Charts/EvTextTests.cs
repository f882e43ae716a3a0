using SensorLab.Profiles;
using SensorLab.Reports.Charts;

namespace SensorLab.Reports.Tests.Charts;

public sealed class EvTextTests
{
    [Theory]
    [InlineData(3.314, "+3.31")]
    [InlineData(-6.516, "−6.52")]
    [InlineData(-0.004, "0.00")]
    [InlineData(0, "0.00")]
    public void Signed_Number_CarriesSignAndTrueMinus(double ev, string expected) => Assert.Equal(expected, EvText.Signed(ev));

    [Theory]
    [InlineData(3.30, 3.32, "+3.31 ±0.01")]
    [InlineData(3.309, 3.3105, "+3.31 ±0.01")]
    [InlineData(3.21, 3.33, "+3.31 +0.02 −0.10")]
    [InlineData(3.31, 3.31, "+3.31 ±0.00")]
    public void Mark_Estimate_PrintsTheIntervalsHalves(double lower, double upper, string expected) =>
        Assert.Equal(expected, EvText.Mark(EvMark.Above(Figure.Estimate(3.31, 0.01, lower, upper))));

    [Fact]
    public void Mark_BoundsAwayFromGrey_AreMarkedAtLeast()
    {
        Assert.Equal("at least +2.90", EvText.Mark(EvMark.Above(Figure.LowerBound(2.9))));
        Assert.Equal("at least −4.20", EvText.Mark(EvMark.Below(Figure.LowerBound(4.2))));
    }

    [Fact]
    public void Mark_BoundsTowardsGrey_SayTheDirection()
    {
        Assert.Equal("+2.90 or darker", EvText.Mark(EvMark.Above(Figure.UpperBound(2.9))));
        Assert.Equal("−4.20 or brighter", EvText.Mark(EvMark.Below(Figure.UpperBound(4.2))));
    }

    [Fact]
    public void Mark_Absent_SaysSo() => Assert.Equal("not measured", EvText.Mark(null));
}
