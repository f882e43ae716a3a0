using SensorLab.Profiles.Placement;
using static SensorLab.Profiles.Tests.Placement.RoundProfile;

namespace SensorLab.Profiles.Tests.Placement;

public sealed class SceneFitTests
{
    private const double RoundingTolerance = 1e-9;

    // Bright end 3.2 − 0.7 = 2.5, dark end −4: 6.5 EV of room.
    private const double GuardEv = 0.7;

    [Theory]
    [InlineData(-3, 2, true, 1.5, -1, 0.5, 0)] // inside as it stands
    [InlineData(-3.5, 2.9, true, 0.1, -0.5, -0.4, -0.4)] // bright end too high: down, no further than needed
    [InlineData(-5, 1, true, 0.5, 1, 1.5, 1)] // dark end too deep: up, no further than needed
    [InlineData(-4, 2.5, true, 0, 0, 0, 0)] // just
    [InlineData(-4, 4, false, -1.5, 0, -1.5, -1.5)] // too long: the bright end is held
    [InlineData(-6, 1, false, -0.5, 2, 1.5, 1.5)]
    public void Fit_Scene_GivesRoomAndTheSmallestShift(double low, double high, bool fits, double room, double lowest, double highest, double shift)
    {
        // A hair of guard less, so that "just" does not hang on a rounding.
        SceneFit fit = EvAxis.Of(Of(), 400).Fit(low, high, GuardEv - 1e-12);

        Assert.Equal(fits, fit.Fits);
        FigureAssert.HasNormalInterval(room, SensorUncertaintyEv * Math.Sqrt(2), fit.RoomEv);
        Assert.Equal(lowest, fit.LowestShiftEv!.Value, RoundingTolerance);
        Assert.Equal(highest, fit.HighestShiftEv!.Value, RoundingTolerance);
        Assert.Equal(shift, fit.ExposureShiftEv!.Value, RoundingTolerance);
    }

    [Fact]
    public void Fit_RandomScenes_ShiftHoldsBothEndsExactlyWhereTheSceneFits()
    {
        EvAxis axis = EvAxis.Of(Of(), 400);
        Random random = new(20260418);
        int fitting = 0;
        for (int trial = 0; trial < 1000; trial++)
        {
            double low = (random.NextDouble() * 8) - 8;
            double high = low + (random.NextDouble() * 10);
            SceneFit fit = axis.Fit(low, high, GuardEv);
            double shift = fit.ExposureShiftEv!.Value;

            Assert.True(high + shift <= 2.5 + RoundingTolerance);
            Assert.Equal(fit.Fits, low + shift >= -4 - RoundingTolerance);
            Assert.Equal(6.5 - (high - low), fit.RoomEv!.Value!.Value, RoundingTolerance);
            fitting += fit.Fits == true ? 1 : 0;
        }

        Assert.InRange(fitting, 100, 900);
    }

    [Fact]
    public void Fit_LowerBoundAbove_SaysYesOrNothing()
    {
        EvAxis axis = EvAxis.Of(Of(WithAbove(Figure.LowerBound(2.7))), 400);

        SceneFit sure = axis.Fit(-3, 1.5, GuardEv);
        Assert.True(sure.Fits);
        FigureAssert.IsAtLeast(1.5, sure.RoomEv);
        Assert.Equal(0, sure.ExposureShiftEv!.Value, RoundingTolerance);
        SceneFit open = axis.Fit(-4, 3, GuardEv);
        Assert.Null(open.Fits);
        Assert.Equal(-1, open.ExposureShiftEv!.Value, RoundingTolerance);
    }

    [Fact]
    public void Fit_UpperBoundAbove_SaysNoOrNothing()
    {
        EvAxis axis = EvAxis.Of(Of(WithAbove(Figure.UpperBound(2.7))), 400);

        Assert.False(axis.Fit(-4, 3, GuardEv).Fits);
        Assert.Null(axis.Fit(-3, 1, GuardEv).Fits);
        Assert.Null(axis.Fit(-3, 1, GuardEv).ExposureShiftEv);
    }

    [Fact]
    public void Fit_BoundBelow_SaysYesOrNothing()
    {
        EvAxis axis = EvAxis.Of(Of(WithBelow(Figure.LowerBound(4.2))), 400);

        Assert.True(axis.Fit(-4.2, 2, GuardEv).Fits);
        Assert.Null(axis.Fit(-6, 2, GuardEv).Fits);
    }

    [Fact]
    public void Fit_EndMissingOrOpposedBounds_LeavesItOpen()
    {
        IsoProfile opposed = WithBelow(Figure.UpperBound(4.2));
        opposed = opposed with { Latitude = opposed.Latitude with { AboveEv = Figure.LowerBound(2.4) } };

        foreach (IsoProfile iso in new[] { WithAbove(null), WithBelow(null), opposed })
        {
            SceneFit fit = EvAxis.Of(Of(iso), 400).Fit(-1, 1);
            Assert.Null(fit.Fits);
            Assert.Null(fit.RoomEv);
            Assert.Null(fit.ExposureShiftEv);
        }
    }

    [Theory]
    [InlineData(1, -1)]
    [InlineData(double.NaN, 1)]
    [InlineData(0, double.PositiveInfinity)]
    public void Fit_NoScene_Throws(double low, double high) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => EvAxis.Of(Of(), 400).Fit(low, high));
}
