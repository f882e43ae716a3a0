using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Response;
using SensorLab.Measurement.Tests.Model;

namespace SensorLab.Measurement.Tests.Response;

public sealed class LinearityEstimatorTests
{
    private static readonly Saturation Clip = new(new Estimate(MadeUpLevels.BlackDn + 12_000, 1), MadeUpLevels.BlackDn + 12_000, AtConverter: true);

    [Fact]
    public void Of_StraightResponse_IsZero()
    {
        LinearityError error = Of(s => 10_000 * s)!;
        Assert.Equal(0, error.MeanPercent.Value!.Value, 1e-9);
        Assert.Equal(0, error.LargestPercent.Lower95!.Value);
    }

    /// <summary>An offset is part of EMVA 1288's line.</summary>
    [Fact]
    public void Of_OffsetResponse_IsZero() => Assert.Equal(0, Of(s => 100 + (10_000 * s))!.LargestPercent.Value!.Value, 1e-9);

    /// <summary>A response bent by 4 % at 10 000 DN deviates by some tenths of a per cent, far beyond its noise.</summary>
    [Fact]
    public void Of_BentResponse_IsBeyondItsNoise()
    {
        LinearityError error = Of(s => 10_000 * s * (1 - (0.04 * s)))!;
        Assert.InRange(error.LargestPercent.Value!.Value, 0.2, 2);
        Assert.True(error.LargestPercent.Lower95 > 0.5 * error.LargestPercent.Value);
        Assert.True(error.MeanPercent.Value < error.LargestPercent.Value);
    }

    /// <summary>A bend beyond its noise is none beyond a black that moves by 100 DN, known from three dark frames.</summary>
    [Fact]
    public void Of_BlackThatDrifts_ReachesDownToZero()
    {
        LinearityError steady = Of(s => 10_000 * s * (1 - (0.04 * s)))!;
        LinearityError error = Of(s => 10_000 * s * (1 - (0.04 * s)), new BlackDrift(100 * 100, 0, 100 * 100 / 3.0, 2))!;
        Assert.Equal(steady.LargestPercent.Value, error.LargestPercent.Value);
        Assert.Equal(0, error.LargestPercent.Lower95!.Value);
        Assert.True(error.LargestPercent.StandardUncertainty > steady.LargestPercent.StandardUncertainty);

        // Drift is nearly all of the variance: Student's factor with two degrees of freedom is 4.303.
        Assert.Equal(4.303, (error.LargestPercent.Upper95!.Value - error.LargestPercent.Value!.Value) / error.LargestPercent.StandardUncertainty!.Value, 0.01);
    }

    [Fact]
    public void Of_TwoLevelsInRange_IsNull() =>
        Assert.Null(LinearityEstimator.Of([Level(0.3, 3000), Level(0.6, 6000), Level(1e-3, 10)], Clip, MadeUpLevels.BlackDn));

    private static LinearityError? Of(Func<double, double> response, BlackDrift? drift = null) =>
        LinearityEstimator.Of([.. new[] { 0.1, 0.2, 0.4, 0.6, 0.8, 1.0 }.Select(s => Level(s, response(s)))], Clip, MadeUpLevels.BlackDn, drift);

    private static ObservedLevel Level(double seconds, double signalDn) => MadeUpLevels.Lit(seconds, MadeUpLevels.BlackDn + signalDn, 10 + (0.4 * signalDn));
}
