using SensorLab.Measurement.Previews;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Previews;

public sealed class BoundedDifferenceTests
{
    /// <summary>5 (4.7 to 5.4) less 3 (2.6 to 3.3): the lower side √(0.3² + 0.3²), the upper √(0.4² + 0.4²); uncertainties 0.3 and 0.4 make 0.5.</summary>
    [Fact]
    public void Of_TwoEstimates_HasTheirSidesInQuadrature()
    {
        Figure difference = BoundedDifference.Of(Figure.Estimate(5, 0.3, 4.7, 5.4), Figure.Estimate(3, 0.4, 2.6, 3.3))!;

        Assert.Equal(2, difference.Value!.Value, 1e-12);
        Assert.Equal(0.5, difference.StandardUncertainty!.Value, 1e-12);
        Assert.Equal(2 - (0.3 * Math.Sqrt(2)), difference.Lower95!.Value, 1e-12);
        Assert.Equal(2 + (0.4 * Math.Sqrt(2)), difference.Upper95!.Value, 1e-12);
    }

    /// <summary>A bound keeps the estimate's far end: at least 5 less at most 3.3; at most 5 less at least 2.6.</summary>
    [Fact]
    public void Of_BoundAndEstimate_IsABoundByTheEstimatesFarEnd()
    {
        Figure less = Figure.Estimate(3, 0.4, 2.6, 3.3);

        Assert.Equal(1.7, BoundedDifference.Of(Figure.LowerBound(5), less)!.AtLeast!.Value, 1e-12);
        Assert.Equal(2.4, BoundedDifference.Of(Figure.UpperBound(5), less)!.AtMost!.Value, 1e-12);
        Assert.Equal(-2.4, BoundedDifference.Of(less, Figure.UpperBound(5))!.AtLeast!.Value, 1e-12);
        Assert.Equal(-1.7, BoundedDifference.Of(less, Figure.LowerBound(5))!.AtMost!.Value, 1e-12);
    }

    [Fact]
    public void Of_BoundsToTheSameSide_OrNothing_IsNull()
    {
        Assert.Null(BoundedDifference.Of(Figure.LowerBound(5), Figure.LowerBound(3)));
        Assert.Null(BoundedDifference.Of(Figure.UpperBound(5), Figure.UpperBound(3)));
        Assert.Null(BoundedDifference.Of(null, Figure.LowerBound(3)));
        Assert.Null(BoundedDifference.Of(Figure.LowerBound(3), null));
    }
}
