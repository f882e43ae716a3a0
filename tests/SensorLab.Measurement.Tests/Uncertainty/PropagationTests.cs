using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Profiles;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.Measurement.Tests.Uncertainty;

public sealed class PropagationTests
{
    private const int Draws = 200_000;

    /// <summary>Three standard errors of a standard deviation from so many draws, and the second order that GUM's equation 13 leaves out.</summary>
    private const double Tolerance = 0.01;

    [Fact]
    public void Of_CorrelatedParameters_AgreesWithMonteCarlo()
    {
        double[] at = [3, 0.4];
        Matrix<double> covariance = Matrix<double>.Build.DenseOfArray(new double[,] { { 0.0009, -0.00006 }, { -0.00006, 0.000025 } });
        static double Quantity(double[] p) => Math.Sqrt(p[0]) / p[1];
        Estimate propagated = Propagation.Of(Quantity, at, [new CovariancePart(covariance, double.PositiveInfinity)])!.Value;

        Matrix<double> root = covariance.Cholesky().Factor;
        var random = new Random(1);
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < Draws; i++)
        {
            double first = Normal(random);
            double second = Normal(random);
            double value = Quantity([at[0] + (root[0, 0] * first), at[1] + (root[1, 0] * first) + (root[1, 1] * second)]) - propagated.Value;
            sum += value;
            squares += value * value;
        }

        double deviation = Math.Sqrt((squares - (sum * sum / Draws)) / (Draws - 1));
        Assert.Equal(deviation, propagated.StandardUncertainty, Tolerance * deviation);
    }

    [Fact]
    public void Of_FunctionWithoutValue_IsNull() =>
        Assert.Null(Propagation.Of(p => Math.Log(p[0]), [-1.0], [new CovariancePart(Matrix<double>.Build.Dense(1, 1, 0.1), double.PositiveInfinity)]));

    [Fact]
    public void Of_ParametersThatCancel_RestsOnThePartsThatAreLeft()
    {
        // Two parameters that share an error of 3 degrees of freedom, of which their difference is free, and one of 8 of the first alone.
        CovariancePart shared = new(Matrix<double>.Build.Dense(2, 2, 1), 3);
        CovariancePart own = new(Matrix<double>.Build.DenseOfDiagonalArray([0.04, 0]), 8);
        Estimate difference = Propagation.Of(p => p[0] - p[1], [1.0, 2.0], [shared, own])!.Value;
        Assert.Equal(0.2, difference.StandardUncertainty, 1e-9);
        Assert.Equal(8, difference.DegreesOfFreedom, 1e-6);

        // GUM, equation G.2b: (4 + 0.04)²/(4²/3 + 0.04²/8).
        Estimate sum = Propagation.Of(p => p[0] + p[1], [1.0, 2.0], [shared, own])!.Value;
        Assert.Equal(16.3216 / ((16 / 3.0) + 0.0002), sum.DegreesOfFreedom, 1e-6);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-0.5)]
    [InlineData(-3)]
    public void ToRootFigure_SquareNotAboveZero_IsAnUpperBoundNoLowerThanAtZero(double square)
    {
        Figure figure = new Estimate(square, 1).ToRootFigure(2);
        Assert.Null(figure.Value);
        Assert.Equal(2 * Math.Sqrt(1.96), figure.AtMost!.Value, 1e-4);
    }

    [Fact]
    public void ToRootFigure_SquareNearZero_HasAnIntervalFromZero()
    {
        Figure figure = new Estimate(1, 1).ToRootFigure();
        Assert.Equal(1, figure.Value);
        Assert.Equal(0, figure.Lower95);
        Assert.Equal(Math.Sqrt(2.96), figure.Upper95!.Value, 1e-3);
    }

    [Fact]
    public void ToRootFigure_SquareFarFromZero_HalvesTheRelativeUncertainty()
    {
        Figure figure = new Estimate(100, 2).ToRootFigure();
        Assert.Equal(0.1, figure.StandardUncertainty!.Value, 1e-12);
    }
}
