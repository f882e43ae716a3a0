namespace SensorLab.Law;

/// <summary>Which exposure times a shutter makes alike: what one scatters by, the other does.</summary>
internal static class ShutterLikeness
{
    /// <summary>Ratio of exposure times within which a shutter scatters alike: mechanical ones change their way of running over more.</summary>
    private const double Ratio = 4;

    /// <summary>Whether two times are alike.</summary>
    /// <param name="one">An exposure time in seconds.</param>
    /// <param name="other">Another one.</param>
    public static bool IsAlike(double one, double other) => one <= Ratio * other && other <= Ratio * one;
}
