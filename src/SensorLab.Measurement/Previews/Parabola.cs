using MathNet.Numerics.LinearAlgebra;

namespace SensorLab.Measurement.Previews;

/// <summary>A parabola, or a straight line, through the last points of a tone curve by least squares.</summary>
internal sealed class Parabola
{
    private readonly double _origin;
    private readonly double[] _coefficients;
    private readonly Matrix<double> _inverse;

    private Parabola(double origin, double[] coefficients, Matrix<double> inverse)
    {
        _origin = origin;
        _coefficients = coefficients;
        _inverse = inverse;
    }

    /// <summary>Fits points; a line through two of them, a parabola through three or more.</summary>
    /// <param name="points">Two points or more, at different EVs.</param>
    public static Parabola Through(ReadOnlySpan<ToneNode> points)
    {
        double origin = points[^1].Ev;
        int terms = Math.Min(3, points.Length);
        double[] evs = [.. points.ToArray().Select(p => p.Ev - origin)];
        Matrix<double> design = Matrix<double>.Build.Dense(points.Length, terms, (i, j) => Math.Pow(evs[i], j));
        Matrix<double> inverse = design.TransposeThisAndMultiply(design).Inverse();
        Vector<double> codes = Vector<double>.Build.DenseOfArray([.. points.ToArray().Select(p => p.Code)]);
        double[] fitted = [.. inverse * design.TransposeThisAndMultiply(codes)];
        return new Parabola(origin, [fitted[0], fitted[1], terms > 2 ? fitted[2] : 0], inverse);
    }

    /// <summary>Where the parabola first reaches a code beyond an EV.</summary>
    /// <param name="code">The code.</param>
    /// <param name="fromEv">The EV from which it rises to it.</param>
    /// <param name="slopeBefore">Codes per EV before that, above 0.</param>
    /// <returns>The EV, that of the turning point where it turns first; and a slope there that no flat top makes 0.</returns>
    public (double Ev, double Slope) Reaches(double code, double fromEv, double slopeBefore)
    {
        (double c, double b, double a) = (_coefficients[0] - code, _coefficients[1], _coefficients[2]);
        double least = slopeBefore / 4;
        double discriminant = (b * b) - (4 * a * c);
        if (discriminant < 0 || (a < 0 && b <= 0))
        {
            return (Math.Max(fromEv, _origin - (b / (2 * a))), least);
        }

        // The root that the rising branch passes, in the form that holds for a straight line too.
        double root = Math.Sqrt(discriminant);
        double ev = b + root > 0 ? -2 * c / (b + root) : 0;
        return (Math.Max(fromEv, _origin + ev), Math.Max(least, root));
    }

    /// <summary>By what the uncertainty of independent codes grows when the parabola is read at an EV.</summary>
    /// <param name="ev">The EV.</param>
    public double Amplification(double ev)
    {
        Vector<double> powers = Vector<double>.Build.Dense(_inverse.RowCount, i => Math.Pow(ev - _origin, i));
        return Math.Sqrt(powers * _inverse * powers);
    }
}
