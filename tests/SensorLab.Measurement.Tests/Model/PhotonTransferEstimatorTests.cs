using SensorLab.Law;
using SensorLab.Measurement.Model;

namespace SensorLab.Measurement.Tests.Model;

public sealed class PhotonTransferEstimatorTests
{
    /// <summary>Variance = 4 + S/2 without noise: the line comes back whatever the weights.</summary>
    [Fact]
    public void Fit_PointsOnALine_GivesTheLine()
    {
        PhotonTransfer line = PhotonTransferEstimator.Fit([Point(0, 4), Point(100, 54), Point(1000, 504), Point(8000, 4004)])!;
        Assert.Equal(0.5, line.GainDnPerElectron, 1e-12);
        Assert.Equal(4, line.InterceptDn2, 1e-10);
        Assert.True(line.Converged);
        Assert.Equal(2, line.DegreesOfFreedom);
        Assert.Equal(0, line.ChiSquare, 1e-15);
    }

    /// <summary>Two points: slope (v₂ − v₁)/S, its variance (u₁² + u₂²)/S², the intercept's u₁², covariance −u₁²/S.</summary>
    [Fact]
    public void Fit_TwoPoints_PropagatesTheirUncertainties()
    {
        PhotonTransferPoint dark = Point(0, 4);
        PhotonTransferPoint lit = Point(1000, 504);
        PhotonTransfer line = PhotonTransferEstimator.Fit([dark, lit])!;
        double first = PhotonTransferEstimator.VarianceOfVariance(line, dark);
        double second = PhotonTransferEstimator.VarianceOfVariance(line, lit);
        Assert.Equal((first + second) / 1e6, line.GainVariance, 1e-12 * line.GainVariance);
        Assert.Equal(first, line.InterceptVariance, 1e-12 * first);
        Assert.Equal(-first / 1000, line.Covariance, 1e-12 * first);
    }

    /// <summary>Normal part 2·504²/10000 = 50.8032; shot noise's fourth cumulant K³S = 125 over 20000 values.</summary>
    [Fact]
    public void VarianceOfVariance_ShotNoise_AddsItsExcess()
    {
        var line = new PhotonTransfer(0.5, 4, 0, 0, 0, 0, 0, true);
        Assert.Equal(50.8032 + 0.00625, PhotonTransferEstimator.VarianceOfVariance(line, Point(1000, 504)), 1e-10);
    }

    /// <summary>A signal that is off by 2 DN moves its point by K·2 DN: 0.5²·4 DN² more.</summary>
    [Fact]
    public void VarianceOfVariance_SignalMoved_AddsWhatItDoesOnTheLine()
    {
        var line = new PhotonTransfer(0.5, 4, 0, 0, 0, 0, 0, true);
        Assert.Equal(50.8032 + 0.00625 + 1, PhotonTransferEstimator.VarianceOfVariance(line, Point(1000, 504) with { SignalVarianceDn2 = 4 }), 1e-10);
    }

    [Fact]
    public void Fit_FallingVariance_GivesNothing() =>
        Assert.Null(PhotonTransferEstimator.Fit([Point(0, 100), Point(100, 50), Point(200, 10)]));

    [Fact]
    public void Fit_OneSignal_GivesNothing() =>
        Assert.Null(PhotonTransferEstimator.Fit([Point(10, 100), Point(10, 50)]));

    private static PhotonTransferPoint Point(double signalDn, double varianceDn2) => new(signalDn, varianceDn2, 10_000, 20_000);
}
