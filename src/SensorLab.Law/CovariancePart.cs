using MathNet.Numerics.LinearAlgebra;

namespace SensorLab.Law;

/// <summary>A part of the covariance of parameters that has a cause of its own, and rests on its own degrees of freedom.</summary>
/// <param name="Covariance">Parameters × parameters, symmetric.</param>
/// <param name="DegreesOfFreedom">What the size of the part rests on; unlimited where it follows from a model or from thousands of pixels.</param>
public sealed record CovariancePart(Matrix<double> Covariance, double DegreesOfFreedom);
