
namespace SensorLab.Law;

/// <summary>The photon-transfer line of a channel: variance = intercept + gain · signal.</summary>
/// <param name="GainDnPerElectron">System gain K in DN/e⁻.</param>
/// <param name="InterceptDn2">Variance without light in DN², quantisation included.</param>
/// <param name="GainVariance">Variance of the gain.</param>
/// <param name="InterceptVariance">Variance of the intercept.</param>
/// <param name="Covariance">Covariance of gain and intercept.</param>
/// <param name="ChiSquare">Weighted sum of squared residuals.</param>
/// <param name="DegreesOfFreedom">Points less two.</param>
/// <param name="Converged">Whether the weights settled.</param>
public sealed record PhotonTransfer(
    double GainDnPerElectron,
    double InterceptDn2,
    double GainVariance,
    double InterceptVariance,
    double Covariance,
    double ChiSquare,
    int DegreesOfFreedom,
    bool Converged)
{
    /// <summary>Variance that the line predicts, in DN².</summary>
    /// <param name="signalDn">Signal above black in DN.</param>
    public double VarianceAt(double signalDn) => InterceptDn2 + (GainDnPerElectron * signalDn);
}
