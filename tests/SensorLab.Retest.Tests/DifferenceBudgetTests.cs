namespace SensorLab.Retest.Tests;

public sealed class DifferenceBudgetTests
{
    // Student's t for 2 degrees of freedom has the closed form t = (1 − 2p)·√(2/(4p(1 − p))): 4.3027 at 2.5 %.
    [Fact]
    public void Half_OfOnePartWithTwoDegrees_IsStudents()
    {
        var budget = new DifferenceBudget([new DifferencePart(DifferenceCause.Meter, 0.01, 2, 1)]);

        Assert.Equal(0.043027, budget.Half, 1e-6);
        Assert.Equal(2, budget.DegreesOfFreedom!.Value, 1e-9);
    }

    [Fact]
    public void Half_OfSeveralParts_IsTheRootOfTheirSquares()
    {
        DifferencePart before = new(DifferenceCause.NoiseBefore, 0.3, double.PositiveInfinity, 1);
        DifferencePart after = new(DifferenceCause.NoiseAfter, 0.4, double.PositiveInfinity, 1);

        var budget = new DifferenceBudget([before, after]);

        Assert.Equal(0.5, budget.StandardUncertainty, 1e-12);
        Assert.Equal(0.5 * 1.959964, budget.Half, 1e-6);
        Assert.Null(budget.DegreesOfFreedom);
    }

    [Theory]
    [InlineData(1, 400)]
    [InlineData(3, 8)]
    [InlineData(2, 2)]
    public void DegreesOfFreedom_AreNeverFewerThanTheScarcestPartHas(double scarce, double other)
    {
        var budget = new DifferenceBudget([new DifferencePart(DifferenceCause.Meter, 0.05, scarce, 3), new DifferencePart(DifferenceCause.NoiseAfter, 0.004, other, 90)]);

        Assert.InRange(budget.DegreesOfFreedom!.Value, scarce, scarce + other);
    }

    [Fact]
    public void Half_OfAMeter_NeverExceedsItsStep() =>
        Assert.Equal(1.0 / 3, new DifferenceBudget([new DifferencePart(DifferenceCause.Meter, 0.1, 1, 4, 1.0 / 3)]).Half, 1e-12);
}
