using SensorLab.Measurement.Previews;

namespace SensorLab.Measurement.Tests.Previews;

public sealed class CodeMedianTests
{
    [Fact]
    public void Of_OneCode_IsThatCode() => Assert.Equal(118, CodeMedian.Of(Counts((118, 500))), 1e-12);

    [Fact]
    public void Of_TwoCodesInHalves_LiesBetweenThem() => Assert.Equal(200.5, CodeMedian.Of(Counts((200, 40), (201, 40))), 1e-12);

    [Fact]
    public void Of_OneQuarterAbove_IsATwelfthStepTowardsIt() =>
        // Three quarters lie evenly over 199.5 to 200.5: half of all are reached two thirds of the way.
        Assert.Equal(199.5 + (2.0 / 3), CodeMedian.Of(Counts((200, 75), (201, 25))), 1e-12);

    [Fact]
    public void Of_BothEnds_StaysInsideTheCodes()
    {
        Assert.Equal(0, CodeMedian.Of(Counts((0, 100))));
        Assert.Equal(255, CodeMedian.Of(Counts((255, 100))), 1e-12);
    }

    [Fact]
    public void Of_NothingOrAnotherDepth_Throws()
    {
        Assert.Throws<ArgumentException>(() => CodeMedian.Of(new long[256]));
        Assert.Throws<ArgumentException>(() => CodeMedian.Of([1, 2, 3]));
    }

    private static long[] Counts(params (int Code, long Count)[] counts)
    {
        var all = new long[256];
        foreach ((int code, long count) in counts)
        {
            all[code] = count;
        }

        return all;
    }
}
