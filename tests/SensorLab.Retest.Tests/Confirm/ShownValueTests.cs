using SensorLab.Profiles;
using SensorLab.Retest.Confirm;

namespace SensorLab.Retest.Tests.Confirm;

public sealed class ShownValueTests
{
    // Three degrees of freedom: 3.18 standard uncertainties a side, where a normal distribution has 1.96.
    [Fact]
    public void ToString_FigureOfFewFrames_HasItsOwnInterval() =>
        Assert.Equal("4 ±0.318", ShownValue.Of(Figure.Estimate(4, 0.1, 4 - 0.318, 4 + 0.318, 3)).ToString());

    [Fact]
    public void ToString_Bound_IsMarked()
    {
        Assert.Equal("4 or above", ShownValue.Of(Figure.LowerBound(4)).ToString());
        Assert.Equal("4 or below", ShownValue.Of(Figure.UpperBound(4)).ToString());
        Assert.Null(ShownValue.Of(Figure.UpperBound(4)).Value);
    }

    [Fact]
    public void ToString_ExactNumberAndWord_StandAlone()
    {
        Assert.Equal("512", ShownValue.Of(512.0).ToString());
        Assert.Equal("unknown", ShownValue.Of((string?)null).ToString());
    }
}
