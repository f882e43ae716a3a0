using MathNet.Numerics.LinearAlgebra;
using SensorLab.Measurement.Fitting;

namespace SensorLab.Measurement.Tests.Fitting;

/// <summary>Non-linear least squares against the certified fits of NIST, from both of their starting points.</summary>
public sealed class NonlinearCertifiedDataTests
{
    /// <summary>
    /// Lanczos1's data are its model to 13 digits: the residuals, hence all standard deviations, are the rounding of the
    /// arithmetic.
    /// </summary>
    private const int DigitsOfRoundingAlone = 2;

    [Theory]
    [InlineData("Misra1a")]
    [InlineData("Misra1b")]
    [InlineData("Misra1c")]
    [InlineData("Misra1d")]
    [InlineData("Chwirut1")]
    [InlineData("Chwirut2")]
    [InlineData("Lanczos1")]
    [InlineData("Lanczos2")]
    [InlineData("Lanczos3")]
    [InlineData("Gauss1")]
    [InlineData("Gauss2")]
    [InlineData("Gauss3")]
    [InlineData("DanWood")]
    [InlineData("Kirby2")]
    [InlineData("Hahn1")]
    [InlineData("Nelson")]
    [InlineData("MGH17")]
    [InlineData("MGH09")]
    [InlineData("BoxBOD")]
    [InlineData("Rat42")]
    [InlineData("Rat43")]
    [InlineData("Eckerle4")]
    [InlineData("Bennett5")]
    [InlineData("ENSO")]
    [InlineData("MGH10")]
    [InlineData("Thurber")]
    public void Fit_FromEitherStart_ReachesTheDigitsOfItsLevel(string name)
    {
        CertifiedSet data = CertifiedSet.Open(name);
        double[][] rows = data.Rows;
        double[][] certified = data.Parameters;
        Vector<double> Residuals(Vector<double> b) => Vector<double>.Build.Dense(rows.Length, i => name == "Nelson"
            ? Math.Log(rows[i][0]) - b[0] + (b[1] * rows[i][1] * Math.Exp(-b[2] * rows[i][2]))
            : rows[i][0] - Model(name, b, rows[i][1]));
        for (int start = 0; start < 2; start++)
        {
            NonlinearFit fit = NonlinearLeastSquares.Fit(Residuals, [.. certified.Select(c => c[2 + start])])!;
            double values = Enumerable.Range(0, certified.Length).Min(j => CertifiedSet.Digits(fit.Parameters[j], certified[j][0]));
            double deviations = Enumerable.Range(0, certified.Length).Min(j => CertifiedSet.Digits(fit.StandardUncertainty(j), certified[j][1]));
            int asked = name == "Lanczos1" ? DigitsOfRoundingAlone : data.DigitsAsked;
            Assert.True(fit.Converged, $"start {start + 1} did not converge");
            Assert.True(values >= data.DigitsAsked, $"start {start + 1}: {values:0.0} digits of the parameters, asked {data.DigitsAsked}");
            Assert.True(deviations >= asked, $"start {start + 1}: {deviations:0.0} digits of the deviations, asked {asked}");
        }
    }

    private static double Model(string name, Vector<double> b, double x) => name switch
    {
        "Misra1a" or "BoxBOD" => b[0] * (1 - Math.Exp(-b[1] * x)),
        "Misra1b" => b[0] * (1 - Math.Pow(1 + (b[1] * x / 2), -2)),
        "Misra1c" => b[0] * (1 - Math.Pow(1 + (2 * b[1] * x), -0.5)),
        "Misra1d" => b[0] * b[1] * x / (1 + (b[1] * x)),
        "Chwirut1" or "Chwirut2" => Math.Exp(-b[0] * x) / (b[1] + (b[2] * x)),
        "Lanczos1" or "Lanczos2" or "Lanczos3" => (b[0] * Math.Exp(-b[1] * x)) + (b[2] * Math.Exp(-b[3] * x)) + (b[4] * Math.Exp(-b[5] * x)),
        "Gauss1" or "Gauss2" or "Gauss3" => (b[0] * Math.Exp(-b[1] * x)) + Peak(b, 2, x) + Peak(b, 5, x),
        "DanWood" => b[0] * Math.Pow(x, b[1]),
        "Kirby2" => (b[0] + (b[1] * x) + (b[2] * x * x)) / (1 + (b[3] * x) + (b[4] * x * x)),
        "Hahn1" or "Thurber" => (b[0] + (b[1] * x) + (b[2] * x * x) + (b[3] * x * x * x)) / (1 + (b[4] * x) + (b[5] * x * x) + (b[6] * x * x * x)),
        "MGH17" => b[0] + (b[1] * Math.Exp(-x * b[3])) + (b[2] * Math.Exp(-x * b[4])),
        "MGH09" => b[0] * ((x * x) + (x * b[1])) / ((x * x) + (x * b[2]) + b[3]),
        "MGH10" => b[0] * Math.Exp(b[1] / (x + b[2])),
        "Rat42" => b[0] / (1 + Math.Exp(b[1] - (b[2] * x))),
        "Rat43" => b[0] / Math.Pow(1 + Math.Exp(b[1] - (b[2] * x)), 1 / b[3]),
        "Eckerle4" => b[0] / b[1] * Math.Exp(-0.5 * Math.Pow((x - b[2]) / b[1], 2)),
        "Bennett5" => b[0] * Math.Pow(b[1] + x, -1 / b[2]),
        "ENSO" => b[0] + Wave(b[1], b[2], 12, x) + Wave(b[4], b[5], b[3], x) + Wave(b[7], b[8], b[6], x),
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, "No model of that name."),
    };

    private static double Peak(Vector<double> b, int first, double x) => b[first] * Math.Exp(-Math.Pow((x - b[first + 1]) / b[first + 2], 2));

    private static double Wave(double cosine, double sine, double period, double x) =>
        (cosine * Math.Cos(2 * Math.PI * x / period)) + (sine * Math.Sin(2 * Math.PI * x / period));
}
