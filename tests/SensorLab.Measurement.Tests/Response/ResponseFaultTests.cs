using MathNet.Numerics.LinearAlgebra;
using SensorLab.Measurement.Response;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.Measurement.Tests.Response;

/// <summary>A shape of open size is a Gaussian process of rank one: both ways to fit it come to the same.</summary>
public sealed class ResponseFaultTests
{
    private const int Points = 12;
    private const double Noise = 0.01;

    [Theory]
    [InlineData(1)]
    [InlineData(17)]
    public void OfShape_FittedAsCovariance_IsTheSame(int seed)
    {
        ResponseMisfits seen = Seen(seed);
        ResponseFault shape = ResponseFault.OfShape(Knee, seen);
        ResponseFault covariance = ResponseFault.OfCovariance((a, b) => Knee(a) * Knee(b), seen);

        Assert.Equal(covariance.LogLikelihood, shape.LogLikelihood, 1e-9);
        Assert.Equal(covariance.Between(0.2, 0.9).Mean, shape.Between(0.2, 0.9).Mean, 1e-12);
        Assert.Equal(covariance.Between(0.2, 0.9).Variance, shape.Between(0.2, 0.9).Variance, 1e-12);
    }

    /// <summary>One point of noise σ and a shape of 1 there: the size is what was seen, drawn to zero by 1/(1 + σ²).</summary>
    [Fact]
    public void OfShape_OnePoint_IsTheWeightedMean()
    {
        var seen = new ResponseMisfits([1], Vector<double>.Build.Dense([0.5]), Matrix<double>.Build.Dense(1, 1, 0.25));
        ResponseFault fault = ResponseFault.OfShape(share => share, seen);

        Assert.Equal(0.5 / 1.25, fault.Between(0, 1).Mean, 1e-15);
        Assert.Equal(0.25 / 1.25, fault.Between(0, 1).Variance, 1e-15);
        Assert.Equal(-((0.25 / 1.25) + Math.Log(1.25)) / 2, fault.LogLikelihood, 1e-15);
    }

    [Fact]
    public void OfShape_Nothing_HasNoFault()
    {
        ResponseFault none = ResponseFault.OfShape(_ => 0, Seen(1));

        Assert.Equal((0, 0), none.Between(0, 1));
    }

    private static double Knee(double share) => 0.03 * Math.Max(0, share - 0.6) / 0.4;

    private static ResponseMisfits Seen(int seed)
    {
        var random = new Random(seed);
        double[] shares = [.. Enumerable.Range(1, Points).Select(i => (double)i / Points)];
        return new ResponseMisfits(
            shares,
            Vector<double>.Build.Dense(Points, i => (0.5 * Knee(shares[i])) + (Noise * Normal(random))),
            Matrix<double>.Build.Dense(Points, Points, (i, j) => (i == j ? Noise * Noise : 0) + (i % 2 == j % 2 ? Noise : 0)));
    }
}
