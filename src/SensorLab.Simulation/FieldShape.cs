namespace SensorLab.Simulation;

/// <summary>How the light falls on the field: brightest in the centre of the active area, or tilted.</summary>
/// <param name="CornerLossFraction">Light missing in the corners, 0 to below 1; it grows with the square of the distance.</param>
/// <param name="TiltFraction">Light gained at the right edge and lost at the left one, above −1 and below 1.</param>
public readonly record struct FieldShape(double CornerLossFraction = 0, double TiltFraction = 0)
{
    /// <summary>The parts of the factor that hang on the column, for a row of <paramref name="width"/> photosites.</summary>
    internal double[] ColumnTerms(int width)
    {
        var terms = new double[width];
        for (int x = 0; x < width; x++)
        {
            double u = FromCentre(x, width);
            terms[x] = 1 - (0.5 * CornerLossFraction * u * u) + (TiltFraction * u);
        }

        return terms;
    }

    /// <summary>The part of the factor that hangs on the row.</summary>
    internal double RowTerm(int row, int height)
    {
        double v = FromCentre(row, height);
        return -0.5 * CornerLossFraction * v * v;
    }

    private static double FromCentre(int index, int length) => length == 1 ? 0 : ((2.0 * index) / (length - 1)) - 1;
}
