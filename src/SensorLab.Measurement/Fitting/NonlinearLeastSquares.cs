using MathNet.Numerics.LinearAlgebra;

namespace SensorLab.Measurement.Fitting;

/// <summary>Non-linear least squares: the steps of Levenberg and Marquardt, scaled as Moré does, each by QR and not by normal equations.</summary>
/// <remarks>
/// Steps solve min |J·d + r|² + λ|D·d|², D the largest length that each of J's columns has had of late. A step is
/// bent by half of what the residuals' second derivative along it asks for, and rejected where that is much (the geodesic
/// acceleration of Transtrum and Sethna, arXiv:1201.5885): narrow curved valleys are followed. λ follows the ratio of
/// the gain to the gain foreseen (Nielsen). Derivatives are central differences of the sixth order at a thousandth of
/// the parameter: their truncation is below rounding, hence they are good to some 12 digits. A last round of undamped
/// steps takes the parameters to where rounding stops them.
/// </remarks>
internal sealed class NonlinearLeastSquares
{
    private const int MostIterations = 5000;
    private const int MostPolishing = 40;
    private const double FirstDamping = 1e-2;
    private const double LargestDamping = 1e16;

    /// <summary>Relative step below which damped steps have come to nothing.</summary>
    private const double SmallestStep = 1e-11;

    /// <summary>Relative step of the undamped rounds at which the minimum counts as found: far below any uncertainty.</summary>
    private const double ConvergedStep = 1e-6;

    /// <summary>Share of its remembered length to which a column of J may not shrink in one step.</summary>
    private const double VanishingShare = 1e-10;

    private const double DifferenceShare = 1e-3;

    /// <summary>A longer difference, which rounding spoils less.</summary>
    private const double LongDifferenceShare = 4e-3;

    /// <summary>Share of a column of J within which both differences agree where the longer one is still short enough.</summary>
    private const double SameDerivative = 1e-9;

    /// <summary>Share of a column's greatest length that is remembered from step to step: a parameter may cross many powers of ten.</summary>
    private const double RememberedShare = 0.8;

    /// <summary>Share of a step at which the residuals' bend along it is probed.</summary>
    private const double BendProbe = 0.1;

    /// <summary>Twice the correction for the bend over the step, above which the step is too long to be corrected.</summary>
    private const double LargestBend = 0.75;

    /// <summary>Weights of f(±h), f(±2h), f(±3h) in the central difference of the sixth order.</summary>
    private static readonly double[] DifferenceWeights = [45.0 / 60, -9.0 / 60, 1.0 / 60];

    private readonly Func<Vector<double>, Vector<double>> _residuals;
    private readonly double[] _scales;

    private NonlinearLeastSquares(Func<Vector<double>, Vector<double>> residuals, double[] scales)
    {
        _residuals = residuals;
        _scales = scales;
    }

    /// <summary>Minimises the sum of squared residuals.</summary>
    /// <param name="residuals">Residuals at given parameters, each over its standard uncertainty where they differ; what is not finite there is stepped around.</param>
    /// <param name="start">Where to start; residuals must be finite there.</param>
    /// <param name="scales">
    /// Size that a parameter may have at least, for differences where it passes zero; null for a thousandth of its start.
    /// </param>
    /// <returns>The fit, converged or not; null where the residuals do not determine the parameters.</returns>
    public static NonlinearFit? Fit(Func<Vector<double>, Vector<double>> residuals, IReadOnlyList<double> start, IReadOnlyList<double>? scales = null)
    {
        double[] sizes = [.. scales ?? start.Select(s => s == 0 ? 1 : Math.Abs(s) * DifferenceShare)];
        return new NonlinearLeastSquares(residuals, sizes).Run(Vector<double>.Build.Dense([.. start]));
    }

    private NonlinearFit? Run(Vector<double> at)
    {
        Vector<double> current = _residuals(at);
        if (!IsFinite(current) || current.Count < at.Count)
        {
            return null;
        }

        (at, current) = Descend(at, current);
        (at, current, bool converged) = Polish(at, current);
        Matrix<double> jacobian = SharpestJacobian(at);
        double[] norms = [.. jacobian.EnumerateColumns().Select(c => c.L2Norm())];
        if (norms.Any(n => !(n > 0) || !double.IsFinite(n)))
        {
            return null;
        }

        Matrix<double> scaled = Matrix<double>.Build.Dense(jacobian.RowCount, norms.Length, (i, j) => jacobian[i, j] / norms[j]);
        Matrix<double> inverse = SmallQr.Of(scaled).R.Inverse();
        Matrix<double> covariance = inverse.TransposeAndMultiply(inverse);
        covariance.MapIndexedInplace((i, j, v) => v / (norms[i] * norms[j]));
        return covariance.Enumerate().All(double.IsFinite)
            ? new NonlinearFit(at, covariance, current.DotProduct(current), current.Count - at.Count, converged)
            : null;
    }

    private (Vector<double> At, Vector<double> Residuals) Descend(Vector<double> at, Vector<double> current)
    {
        double[] lengths = new double[at.Count];
        double damping = FirstDamping;
        double growth = 2;
        Matrix<double> jacobian = Jacobian(at);
        for (int i = 0; i < MostIterations && damping < LargestDamping; i++)
        {
            for (int j = 0; j < lengths.Length; j++)
            {
                lengths[j] = Math.Max(RememberedShare * lengths[j], jacobian.Column(j).L2Norm());
            }

            if (Step(jacobian, current, lengths, damping) is not { } step)
            {
                break;
            }

            double foreseen = Foreseen(jacobian, current, step);
            bool bends = !Accelerate(at, jacobian, current, lengths, damping, ref step);
            Vector<double> next = _residuals(at + step);
            double gain = !bends && IsFinite(next) ? current.DotProduct(current) - next.DotProduct(next) : double.NegativeInfinity;
            bool still = RelativeSize(step, at) < SmallestStep;
            Matrix<double>? ahead = gain > 0 ? Jacobian(at + step) : null;
            if (ahead is not null && Matters(ahead, lengths))
            {
                at += step;
                current = next;
                jacobian = ahead;
                damping *= Math.Max(1.0 / 3, 1 - Math.Pow((2 * gain / foreseen) - 1, 3));
                growth = 2;
            }
            else
            {
                damping *= growth;
                growth *= 2;
            }

            if (still)
            {
                break;
            }
        }

        return (at, current);
    }

    /// <summary>Adds to a step what the residuals' second derivative along it asks for.</summary>
    /// <returns>Whether the step is short enough for that: the correction stays well below the step.</returns>
    private bool Accelerate(Vector<double> at, Matrix<double> jacobian, Vector<double> current, double[] lengths, double damping, ref Vector<double> step)
    {
        Vector<double> ahead = _residuals(at + (BendProbe * step));
        Vector<double> bend = (((ahead - current) / BendProbe) - (jacobian * step)) * (2 / BendProbe);
        if (!IsFinite(bend) || Step(jacobian, bend, lengths, damping) is not { } correction)
        {
            return false;
        }

        double size = Math.Sqrt(step.Select((v, j) => v * v * lengths[j] * lengths[j]).Sum());
        double corrected = Math.Sqrt(correction.Select((v, j) => v * v * lengths[j] * lengths[j]).Sum());
        step += correction / 2;
        return 2 * corrected <= LargestBend * size;
    }

    /// <summary>Whether every parameter still moves the residuals: a step to where one no longer does would never come back.</summary>
    private static bool Matters(Matrix<double> jacobian, double[] lengths) =>
        Enumerable.Range(0, lengths.Length).All(j => jacobian.Column(j).L2Norm() > VanishingShare * lengths[j]);

    /// <summary>Undamped steps while they still get smaller: the sum of squares no longer shows such progress.</summary>
    private (Vector<double> At, Vector<double> Residuals, bool Converged) Polish(Vector<double> at, Vector<double> current)
    {
        double last = ConvergedStep;
        bool converged = false;
        for (int i = 0; i < MostPolishing; i++)
        {
            if (Step(Jacobian(at), current, new double[at.Count], 0) is not { } step)
            {
                break;
            }

            double size = RelativeSize(step, at);
            Vector<double> next = _residuals(at + step);
            if (!(size < last) || !IsFinite(next))
            {
                break;
            }

            (at, current, last, converged) = (at + step, next, size, true);
        }

        return (at, current, converged);
    }

    private static Vector<double>? Step(Matrix<double> jacobian, Vector<double> residuals, double[] lengths, double damping)
    {
        int parameters = jacobian.ColumnCount;
        double[] norms = [.. jacobian.EnumerateColumns().Select(c => c.L2Norm())];
        if (norms.Any(n => !(n > 0) || !double.IsFinite(n)))
        {
            return null;
        }

        int rows = jacobian.RowCount;
        int extra = damping > 0 ? parameters : 0;
        double root = Math.Sqrt(damping);
        Matrix<double> scaled = Matrix<double>.Build.Dense(rows + extra, parameters, (i, j) =>
            i < rows ? jacobian[i, j] / norms[j] : i - rows == j ? root * lengths[j] / norms[j] : 0);
        Vector<double> target = Vector<double>.Build.Dense(rows + extra, i => i < rows ? -residuals[i] : 0);
        Vector<double> step = SmallQr.Of(scaled).Solve(target);
        step.MapIndexedInplace((j, v) => v / norms[j]);
        return IsFinite(step) ? step : null;
    }

    private static double Foreseen(Matrix<double> jacobian, Vector<double> residuals, Vector<double> step)
    {
        Vector<double> linear = residuals + (jacobian * step);
        return Math.Max(residuals.DotProduct(residuals) - linear.DotProduct(linear), double.Epsilon);
    }

    private double RelativeSize(Vector<double> step, Vector<double> at) =>
        Enumerable.Range(0, at.Count).Max(i => Math.Abs(step[i]) / Math.Max(Math.Abs(at[i]), _scales[i]));

    /// <summary>J with the longer difference for every parameter where the shorter one says the same.</summary>
    private Matrix<double> SharpestJacobian(Vector<double> at)
    {
        Matrix<double> sharpest = Jacobian(at);
        Matrix<double> longer = Jacobian(at, LongDifferenceShare);
        for (int j = 0; j < at.Count; j++)
        {
            if ((longer.Column(j) - sharpest.Column(j)).L2Norm() < SameDerivative * sharpest.Column(j).L2Norm())
            {
                sharpest.SetColumn(j, longer.Column(j));
            }
        }

        return sharpest;
    }

    private Matrix<double> Jacobian(Vector<double> at, double share = DifferenceShare)
    {
        Vector<double>[] columns = new Vector<double>[at.Count];
        for (int j = 0; j < at.Count; j++)
        {
            double step = share * Math.Max(Math.Abs(at[j]), _scales[j]);
            Vector<double>? sum = null;
            for (int k = 0; k < DifferenceWeights.Length; k++)
            {
                Vector<double> up = at.Clone();
                Vector<double> down = at.Clone();
                up[j] += (k + 1) * step;
                down[j] -= (k + 1) * step;
                Vector<double> part = (_residuals(up) - _residuals(down)) * (2 * DifferenceWeights[k] / (up[j] - down[j]) * (k + 1));
                sum = sum is null ? part : sum + part;
            }

            columns[j] = sum!;
        }

        return Matrix<double>.Build.DenseOfColumnVectors(columns);
    }

    private static bool IsFinite(Vector<double> vector) => vector.All(double.IsFinite);
}

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
