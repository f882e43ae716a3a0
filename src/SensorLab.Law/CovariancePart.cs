using MathNet.Numerics.LinearAlgebra;

namespace SensorLab.Law;

/// <summary>A part of the covariance of parameters that has a cause of its own, and rests on its own degrees of freedom.</summary>
/// <param name="Covariance">Parameters × parameters, symmetric.</param>
/// <param name="DegreesOfFreedom">What the size of the part rests on; unlimited where it follows from a model or from thousands of pixels.</param>
public sealed record CovariancePart(Matrix<double> Covariance, double DegreesOfFreedom)
{
    /// <summary>The part as it is for linear functions of the parameters.</summary>
    /// <param name="map">Functions × parameters.</param>
    public CovariancePart Mapped(Matrix<double> map) => this with { Covariance = map * Covariance * map.Transpose() };

    /// <summary>The part for some of the parameters, in a given order.</summary>
    /// <param name="indices">Places of the parameters.</param>
    public CovariancePart Of(IReadOnlyList<int> indices) =>
        this with { Covariance = Matrix<double>.Build.Dense(indices.Count, indices.Count, (i, j) => Covariance[indices[i], indices[j]]) };
}
