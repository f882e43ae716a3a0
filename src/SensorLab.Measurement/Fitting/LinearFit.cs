using MathNet.Numerics.LinearAlgebra;

namespace SensorLab.Measurement.Fitting;

/// <summary>The outcome of a linear least-squares fit.</summary>
/// <param name="Parameters">The parameters, in the order of the design's columns.</param>
/// <param name="UnitCovariance">Their covariance where every observation has variance 1: (XᵀX)⁻¹.</param>
/// <param name="Residuals">Observed less fitted.</param>
/// <param name="DegreesOfFreedom">Observations less parameters.</param>
internal sealed record LinearFit(Vector<double> Parameters, Matrix<double> UnitCovariance, Vector<double> Residuals, int DegreesOfFreedom)
{
    /// <summary>Sum of squared residuals.</summary>
    public double ResidualSquares => Residuals.Sum(r => r * r);

    /// <summary>Variance of an observation as the residuals show it; 0 without degrees of freedom.</summary>
    public double ResidualVariance => DegreesOfFreedom > 0 ? ResidualSquares / DegreesOfFreedom : 0;

    /// <summary>A parameter's standard uncertainty, the observations' variance taken from the residuals.</summary>
    /// <param name="parameter">Index of the parameter.</param>
    public double StandardUncertainty(int parameter) => Math.Sqrt(ResidualVariance * UnitCovariance[parameter, parameter]);
}
