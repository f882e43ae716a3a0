namespace SensorLab.Planning.Plans;

/// <summary>A weighted straight line before its points are measured: the variances of slope and intercept, and how each hangs on the points.</summary>
/// <remarks>The inverse of the Fisher information of slope and intercept for independent normal points of known variance.</remarks>
internal sealed class PlannedLine
{
    private readonly double[] _abscissae;
    private readonly double[] _weights;
    private readonly double _determinant;
    private readonly double _sum;
    private readonly double _first;
    private readonly double _second;

    /// <summary>Takes the points.</summary>
    /// <param name="points">Abscissa and variance of the ordinate; two different abscissae or more.</param>
    public PlannedLine(IReadOnlyList<(double Abscissa, double Variance)> points)
    {
        _abscissae = [.. points.Select(p => p.Abscissa)];
        _weights = [.. points.Select(p => 1 / p.Variance)];
        _sum = _weights.Sum();
        _first = _weights.Zip(_abscissae, (w, x) => w * x).Sum();
        _second = _weights.Zip(_abscissae, (w, x) => w * x * x).Sum();
        _determinant = (_sum * _second) - (_first * _first);
    }

    /// <summary>Variance of the slope.</summary>
    public double SlopeVariance => _sum / _determinant;

    /// <summary>Variance of the intercept.</summary>
    public double InterceptVariance => _second / _determinant;

    /// <summary>Covariance of both.</summary>
    public double Covariance => -_first / _determinant;

    /// <summary>By how much the slope moves with a point.</summary>
    /// <param name="point">The point's place.</param>
    public double SlopeSensitivity(int point) => _weights[point] * ((_sum * _abscissae[point]) - _first) / _determinant;

    /// <summary>By how much the intercept moves with a point.</summary>
    /// <param name="point">The point's place.</param>
    public double InterceptSensitivity(int point) => _weights[point] * (_second - (_first * _abscissae[point])) / _determinant;
}
