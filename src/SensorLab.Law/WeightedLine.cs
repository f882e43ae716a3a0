namespace SensorLab.Law;

/// <summary>A straight line by weighted least squares, with the covariance that weights of 1/variance give.</summary>
internal sealed class WeightedLine
{
    private readonly double _weights;
    private readonly double _centre;
    private readonly double _spread;
    private readonly IReadOnlyList<(double X, double Y, double Weight)> _points;

    private WeightedLine(IReadOnlyList<(double X, double Y, double Weight)> points)
    {
        _points = points;
        _weights = points.Sum(p => p.Weight);
        _centre = points.Sum(p => p.Weight * p.X) / _weights;
        double height = points.Sum(p => p.Weight * p.Y) / _weights;
        _spread = points.Sum(p => p.Weight * (p.X - _centre) * (p.X - _centre));
        Slope = points.Sum(p => p.Weight * (p.X - _centre) * (p.Y - height)) / _spread;
        Intercept = height - (Slope * _centre);
    }

    public double Slope { get; }

    public double Intercept { get; }

    public double SlopeVariance => 1 / _spread;

    public double InterceptVariance => (1 / _weights) + (_centre * _centre / _spread);

    public double Covariance => -_centre / _spread;

    /// <summary>Weighted sum of squared residuals.</summary>
    public double ChiSquare => _points.Sum(p => p.Weight * Math.Pow(p.Y - At(p.X), 2));

    /// <summary>The line's y at an x.</summary>
    /// <param name="x">The place.</param>
    public double At(double x) => Intercept + (Slope * x);

    /// <summary>Fits the line.</summary>
    /// <param name="points">Two points or more with different x and positive weights.</param>
    /// <returns>The line, or null where the points do not determine one.</returns>
    public static WeightedLine? Fit(IReadOnlyList<(double X, double Y, double Weight)> points)
    {
        if (points.Count < 2)
        {
            return null;
        }

        var line = new WeightedLine(points);
        return double.IsFinite(line.Slope) && double.IsFinite(line.Intercept) ? line : null;
    }

    /// <summary>By how much the slope moves with a point's y.</summary>
    /// <param name="point">Index of the point.</param>
    public double SlopeSensitivity(int point) => _points[point].Weight * (_points[point].X - _centre) / _spread;

    /// <summary>By how much the intercept moves with a point's y.</summary>
    /// <param name="point">Index of the point.</param>
    public double InterceptSensitivity(int point) => (_points[point].Weight / _weights) - (_centre * SlopeSensitivity(point));
}
