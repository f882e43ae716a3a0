using SensorLab.Profiles;
using SensorLab.Reports.Charts;

namespace SensorLab.Reports.Tests.Charts;

public sealed class EvMarkTests
{
    [Fact]
    public void Below_Estimate_LiesLeftOfGreyWithItsIntervalMirrored()
    {
        EvMark? mark = EvMark.Below(Figure.Estimate(6.5, 0.1, 6.2, 6.6));

        Assert.Equal(new EvMark(-6.5, -6.6, -6.2, OpenSide.None), mark);
    }

    [Fact]
    public void Below_AtLeast_IsOpenTowardsShadow() =>
        Assert.Equal(new EvMark(-4, -4, -4, OpenSide.Shadow), EvMark.Below(Figure.LowerBound(4)));

    [Fact]
    public void Below_AtMost_IsOpenTowardsHighlight() =>
        Assert.Equal(new EvMark(-4, -4, -4, OpenSide.Highlight), EvMark.Below(Figure.UpperBound(4)));

    [Fact]
    public void Above_AtLeast_IsOpenTowardsHighlight() =>
        Assert.Equal(new EvMark(2.9, 2.9, 2.9, OpenSide.Highlight), EvMark.Above(Figure.LowerBound(2.9)));

    [Fact]
    public void Above_AtMost_IsOpenTowardsShadow() =>
        Assert.Equal(new EvMark(2.9, 2.9, 2.9, OpenSide.Shadow), EvMark.Above(Figure.UpperBound(2.9)));

    [Fact]
    public void AboveAndBelow_AbsentFigure_GiveNoMark()
    {
        Assert.Null(EvMark.Above(null));
        Assert.Null(EvMark.Below(null));
        Assert.Null(EvMark.Above(new Figure()));
    }
}
