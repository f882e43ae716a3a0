namespace SensorLab.Profiles.Tests.Placement;

/// <summary>Figures to a few units in the last place: sums of decimal fractions are not exact in binary.</summary>
internal static class FigureAssert
{
    private const double RoundingTolerance = 1e-9;
    private const double NormalQuantile975 = 1.959964;

    public static void Is(double value, double standardUncertainty, Figure? actual)
    {
        Assert.NotNull(actual);
        Assert.Equal(value, actual.Value!.Value, RoundingTolerance);
        Assert.Equal(standardUncertainty, actual.StandardUncertainty!.Value, RoundingTolerance);
    }

    public static void HasNormalInterval(double value, double standardUncertainty, Figure? actual)
    {
        Is(value, standardUncertainty, actual);
        Assert.Equal(value - (NormalQuantile975 * standardUncertainty), actual!.Lower95!.Value, RoundingTolerance);
        Assert.Equal(value + (NormalQuantile975 * standardUncertainty), actual.Upper95!.Value, RoundingTolerance);
    }

    public static void IsAtLeast(double bound, Figure? actual)
    {
        Assert.NotNull(actual?.AtLeast);
        Assert.Equal(bound, actual.AtLeast.Value, RoundingTolerance);
        Assert.Equal(Figure.LowerBound(actual.AtLeast.Value), actual);
    }

    public static void IsAtMost(double bound, Figure? actual)
    {
        Assert.NotNull(actual?.AtMost);
        Assert.Equal(bound, actual.AtMost.Value, RoundingTolerance);
        Assert.Equal(Figure.UpperBound(actual.AtMost.Value), actual);
    }
}
