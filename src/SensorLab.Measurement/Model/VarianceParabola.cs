using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Measurement.Fitting;

namespace SensorLab.Measurement.Model;

/// <summary>What variances hold beside the photon-transfer line: a in I + K·S + a·S².</summary>
internal static class VarianceParabola
{
    private const int Terms = 3;

    /// <summary>The term of the squared signal.</summary>
    /// <param name="signalsDn">Signals in DN.</param>
    /// <param name="variancesDn2">Variances in DN².</param>
    /// <param name="deviationsDn2">Standard uncertainties of the variances in DN².</param>
    /// <returns>The term, dimensionless; null where the levels do not determine it.</returns>
    public static Estimate? Square(double[] signalsDn, double[] variancesDn2, double[] deviationsDn2)
    {
        Matrix<double> design = Matrix<double>.Build.Dense(signalsDn.Length, Terms, (row, power) => Math.Pow(signalsDn[row], power) / deviationsDn2[row]);
        Vector<double> observed = Vector<double>.Build.Dense(signalsDn.Length, row => variancesDn2[row] / deviationsDn2[row]);
        return LinearLeastSquares.Fit(design, observed) is { } fit ? new Estimate(fit.Parameters[2], Math.Sqrt(fit.UnitCovariance[2, 2])) : null;
    }
}
