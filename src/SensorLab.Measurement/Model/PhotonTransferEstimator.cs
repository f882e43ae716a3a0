using SensorLab.Law;

namespace SensorLab.Measurement.Model;

/// <summary>Fits the photon-transfer line by weighted least squares with weights from the model, iterated.</summary>
/// <remarks>
/// EMVA 1288 R4 Linear, photon transfer method. The variance of a variance is 2σ⁴/ν for normal noise; photon shot noise
/// adds its excess, the fourth cumulant K³S over the number of values. Weights are taken from the fitted line and not
/// from the points, which makes the fit the maximum-likelihood one for variances distributed as χ² and keeps it free of
/// the bias that weights from the points would bring. A signal that is off by its own variance moves its point along the
/// line: K² of it counts as the point's.
/// </remarks>
public static class PhotonTransferEstimator
{
    private const int MostIterations = 50;
    private const double ConvergedChange = 1e-12;

    /// <summary>Fits the line.</summary>
    /// <param name="points">Two points or more with different signals.</param>
    /// <returns>The line, or null where the points cannot determine one with a positive gain.</returns>
    public static PhotonTransfer? Fit(IReadOnlyList<PhotonTransferPoint> points)
    {
        if (points.Count < 2 || points.Max(p => p.SignalDn) <= points.Min(p => p.SignalDn))
        {
            return null;
        }

        PhotonTransfer? line = Solve(points, p => p.DegreesOfFreedom / (2 * Math.Pow(Math.Max(p.VarianceDn2, 1e-9), 2)));
        for (int i = 0; i < MostIterations && line is not null; i++)
        {
            PhotonTransfer previous = line;
            line = Solve(points, p => 1 / VarianceOfVariance(previous, p));
            if (line is not null && Math.Abs(line.GainDnPerElectron - previous.GainDnPerElectron) <= ConvergedChange * Math.Abs(line.GainDnPerElectron))
            {
                return line.GainDnPerElectron > 0 ? line with { Converged = true } : null;
            }
        }

        return line?.GainDnPerElectron > 0 ? line : null;
    }

    /// <summary>The variance of a level's variance under a line, in DN⁴.</summary>
    /// <param name="line">The line.</param>
    /// <param name="point">The level.</param>
    public static double VarianceOfVariance(PhotonTransfer line, PhotonTransferPoint point)
    {
        double smallest = 1e-6 + (1e-3 * point.VarianceDn2);
        double variance = Math.Max(line.VarianceAt(point.SignalDn), smallest);
        double excess = Math.Pow(Math.Max(line.GainDnPerElectron, 0), 3) * Math.Max(point.SignalDn, 0);
        double moved = line.GainDnPerElectron * line.GainDnPerElectron * point.SignalVarianceDn2;
        return (2 * variance * variance / point.DegreesOfFreedom) + (excess / point.Values) + moved;
    }

    private static PhotonTransfer? Solve(IReadOnlyList<PhotonTransferPoint> points, Func<PhotonTransferPoint, double> weightOf) =>
        WeightedLine.Fit([.. points.Select(p => (p.SignalDn, p.VarianceDn2, weightOf(p)))]) is { } line
            ? new PhotonTransfer(line.Slope, line.Intercept, line.SlopeVariance, line.InterceptVariance, line.Covariance, line.ChiSquare, points.Count - 2, false)
            : null;
}
