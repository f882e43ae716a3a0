using MathNet.Numerics.LinearAlgebra;

namespace SensorLab.Measurement.Fitting;

/// <summary>The outcome of a non-linear least-squares fit.</summary>
/// <param name="Parameters">The parameters.</param>
/// <param name="UnitCovariance">Their covariance where every residual has variance 1: (JᵀJ)⁻¹ at the minimum.</param>
/// <param name="ResidualSquares">Sum of squared residuals.</param>
/// <param name="DegreesOfFreedom">Residuals less parameters.</param>
/// <param name="Converged">Whether steps came to nothing.</param>
internal sealed record NonlinearFit(Vector<double> Parameters, Matrix<double> UnitCovariance, double ResidualSquares, int DegreesOfFreedom, bool Converged)
{
    /// <summary>Standard deviation of a residual; 0 without degrees of freedom.</summary>
    public double ResidualDeviation => DegreesOfFreedom > 0 ? Math.Sqrt(ResidualSquares / DegreesOfFreedom) : 0;

    /// <summary>A parameter's standard uncertainty, the residuals' variance taken from themselves.</summary>
    /// <param name="parameter">Index of the parameter.</param>
    public double StandardUncertainty(int parameter) => ResidualDeviation * Math.Sqrt(UnitCovariance[parameter, parameter]);
}
