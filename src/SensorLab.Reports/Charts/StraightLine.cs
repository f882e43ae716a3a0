namespace SensorLab.Reports.Charts;

/// <summary>A straight line with offset of least relative squares.</summary>
/// <param name="Intercept">Its signal at no exposure.</param>
/// <param name="Slope">Its signal a unit of exposure.</param>
/// <remarks>EMVA 1288 R4 Linear, linearity error: relative deviations are weighted alike.</remarks>
internal readonly record struct StraightLine(double Intercept, double Slope)
{
    /// <summary>Fits points.</summary>
    /// <param name="points">Exposure and signal, signals above 0.</param>
    /// <returns>The line, or null where the exposures do not differ.</returns>
    public static StraightLine? Of(IReadOnlyList<(double Exposure, double Signal)> points)
    {
        (double w, double wx, double wy, double wxx, double wxy) = (0, 0, 0, 0, 0);
        foreach ((double x, double y) in points)
        {
            double weight = 1 / (y * y);
            w += weight;
            wx += weight * x;
            wy += weight * y;
            wxx += weight * x * x;
            wxy += weight * x * y;
        }

        double determinant = (w * wxx) - (wx * wx);
        if (!(determinant > 1e-12 * w * wxx))
        {
            return null;
        }

        double slope = ((w * wxy) - (wx * wy)) / determinant;
        return new StraightLine((wy - (slope * wx)) / w, slope);
    }

    /// <summary>The line's signal.</summary>
    /// <param name="exposure">The exposure.</param>
    public double At(double exposure) => Intercept + (Slope * exposure);
}
