using SensorLab.Reports.Charts;

namespace SensorLab.Reports.Tests.Charts;

public sealed class ChartAxisTests
{
    [Fact]
    public void Ev_AnyRange_HoldsGreyAtZeroAndWholeStops()
    {
        ChartAxis axis = ChartAxis.Ev(-6.4, 3.3);

        Assert.Equal("EV", axis.Unit);
        Assert.Equal((-7, 4), (axis.Minimum, axis.Maximum));
        Assert.Equal(Enumerable.Range(-7, 12).Select(i => (double)i), axis.Ticks.Select(t => t.Value));
        Assert.Equal(["−7", "−6", "−5", "−4", "−3", "−2", "−1", "0", "+1", "+2", "+3", "+4"], axis.Ticks.Select(t => t.Label));
    }

    [Fact]
    public void Ev_RangeAboveGreyAlone_StillHoldsGrey()
    {
        ChartAxis axis = ChartAxis.Ev(1.2, 3.3);

        Assert.Contains(axis.Ticks, tick => tick is { Value: 0, Label: "0" });
    }

    [Fact]
    public void Ev_VeryWideRange_ThinsTicksAndKeepsGrey()
    {
        ChartAxis axis = ChartAxis.Ev(-25, 5);

        Assert.Contains(axis.Ticks, tick => tick.Value == 0);
        Assert.True(axis.Ticks.Count <= 17);
    }

    [Theory]
    [InlineData(3.2, 11_000, 2, 20_000)]
    [InlineData(1, 10, 0.5, 20)]
    [InlineData(0.056, 0.9, 0.05, 2)]
    public void Logarithmic_Range_EndsAtNiceValuesBeyondIt(double lowest, double highest, double minimum, double maximum)
    {
        ChartAxis axis = ChartAxis.Logarithmic("Mean", "DN", lowest, highest);

        Assert.Equal(AxisScale.Logarithmic, axis.Scale);
        Assert.Equal(minimum, axis.Minimum, 9);
        Assert.Equal(maximum, axis.Maximum, 9);
        Assert.NotEmpty(axis.Ticks);
        Assert.All(axis.Ticks, tick => Assert.InRange(tick.Value, minimum * 0.999, maximum * 1.001));
    }
}
