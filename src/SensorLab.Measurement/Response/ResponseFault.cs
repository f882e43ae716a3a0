using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace SensorLab.Measurement.Response;

/// <summary>One kind and scale of what a response may do beside its law (D, a natural logarithm of light), and how well it explains what the levels show.</summary>
/// <param name="logLikelihood">Logarithm of its marginal likelihood, up to what all faults of the same levels share.</param>
/// <param name="between">Mean and variance of D between two shares.</param>
internal sealed class ResponseFault(double logLikelihood, Func<double, double, (double Mean, double Variance)> between)
{
    /// <summary>Logarithm of its marginal likelihood, up to what all faults of the same levels share.</summary>
    public double LogLikelihood { get; } = logLikelihood;

    /// <summary>D between two shares of saturation, given the levels: its mean and variance.</summary>
    /// <param name="low">The lower share.</param>
    /// <param name="high">The higher one.</param>
    public (double Mean, double Variance) Between(double low, double high) => between(low, high);

    /// <summary>A fault of any shape: D is a Gaussian process of mean 0 before the levels are asked.</summary>
    /// <param name="covariance">Covariance of D at two shares of saturation.</param>
    /// <param name="seen">What the levels show.</param>
    public static ResponseFault OfCovariance(Func<double, double, double> covariance, ResponseMisfits seen)
    {
        int points = seen.Shares.Count;
        Cholesky<double> root = (seen.Known + Matrix<double>.Build.Dense(points, points, (i, j) => covariance(seen.Shares[i], seen.Shares[j]))).Cholesky();
        Vector<double> solved = root.Solve(seen.Misfits);
        return new ResponseFault(-((seen.Misfits * solved) + root.DeterminantLn) / 2, (low, high) =>
        {
            Vector<double> together = Vector<double>.Build.Dense(points, i => covariance(high, seen.Shares[i]) - covariance(low, seen.Shares[i]));
            double own = covariance(high, high) + covariance(low, low) - (2 * covariance(low, high));
            return (together * solved, Math.Max(0, own - (together * root.Solve(together))));
        });
    }

    /// <summary>A fault of one shape, whose size alone is open: D is the shape times a normal variate of mean 0 and variance 1 before the levels are asked.</summary>
    /// <remarks>Its covariance is of rank one, so that what the levels are without it serves (the formula of Sherman and Morrison).</remarks>
    /// <param name="shape">The shape by share of saturation; 0 everywhere for no fault at all.</param>
    /// <param name="seen">What the levels show.</param>
    public static ResponseFault OfShape(Func<double, double> shape, ResponseMisfits seen)
    {
        Vector<double> at = Vector<double>.Build.Dense(seen.Shares.Count, i => shape(seen.Shares[i]));
        Vector<double> solved = seen.Root.Solve(at);
        double precision = 1 + (at * solved);
        double size = seen.Misfits * solved / precision;
        return new ResponseFault((size * size * precision / 2) - ((seen.Squares + seen.Root.DeterminantLn + Math.Log(precision)) / 2), (low, high) =>
        {
            double step = shape(high) - shape(low);
            return (step * size, step * step / precision);
        });
    }
}

/// <summary>What the levels of an ISO show beside the law that was fitted.</summary>
internal sealed class ResponseMisfits
{
    /// <summary>Gathers it.</summary>
    /// <param name="shares">Where the points are, as shares of saturation.</param>
    /// <param name="misfits">What each shows, as a natural logarithm of light.</param>
    /// <param name="known">Their covariance where the law has no fault.</param>
    public ResponseMisfits(IReadOnlyList<double> shares, Vector<double> misfits, Matrix<double> known)
    {
        Shares = shares;
        Misfits = misfits;
        Known = known;
        Root = known.Cholesky();
        Squares = misfits * Root.Solve(misfits);
    }

    /// <summary>Where the points are, as shares of saturation.</summary>
    public IReadOnlyList<double> Shares { get; }

    /// <summary>What each shows, as a natural logarithm of light.</summary>
    public Vector<double> Misfits { get; }

    /// <summary>Their covariance where the law has no fault,</summary>
    public Matrix<double> Known { get; }

    /// <summary>factorised,</summary>
    public Cholesky<double> Root { get; }

    /// <summary>and their squares in it.</summary>
    public double Squares { get; }
}
