using MathNet.Numerics;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace SensorLab.Measurement.Fitting;

/// <summary>Householder's QR of the small matrices of a fit, on the thread that asks for it.</summary>
/// <remarks>
/// Some hundred rows by some ten columns are less work than to hand a part of them to another thread, which MathNet does
/// unless told otherwise: a fit took three times the processor's time, most of it spent waiting. Several ISOs are what
/// several cores are for.
/// </remarks>
internal static class SmallQr
{
    static SmallQr() => Control.UseSingleThread();

    /// <summary>Factors a matrix of at least as many rows as columns.</summary>
    /// <param name="design">The matrix.</param>
    public static QR<double> Of(Matrix<double> design) => design.QR(QRMethod.Thin);
}
