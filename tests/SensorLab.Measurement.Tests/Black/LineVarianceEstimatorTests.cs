using SensorLab.Law;
using SensorLab.Measurement.Black;

namespace SensorLab.Measurement.Tests.Black;

public sealed class LineVarianceEstimatorTests
{
    [Fact]
    public void Of_LevelsAlike_AddsDegreesOfFreedom()
    {
        Estimate shared = LineVarianceEstimator.Of([(2, 1, 30), (2, 1, 30), (2, 1, 60)]);
        Assert.Equal(2, shared.Value, 1e-12);
        Assert.Equal(120, shared.DegreesOfFreedom, 1e-9);
        Assert.Equal(3 * Math.Sqrt(2.0 / 120), shared.StandardUncertainty, 1e-9);
    }

    [Fact]
    public void Of_BrightLevels_RestsOnTheDarkOne()
    {
        // Photon noise a hundred times the row noise: these levels say next to nothing, and their degrees of freedom count as little.
        Estimate shared = LineVarianceEstimator.Of([(2, 1, 30), (2, 300, 1000), (2, 300, 1000)]);
        Assert.InRange(shared.DegreesOfFreedom, 30, 31);
    }
}
