namespace SensorLab.Measurement.Findings;

/// <summary>From when on a deviation is no accident.</summary>
internal static class Significance
{
    /// <summary>
    /// Standard deviations beyond which chance is ruled out. A set of ten ISOs and four channels is put to some 800
    /// tests. Even where an uncertainty is 30 % too small, 6 are 4.6 true ones: 4·10⁻⁶ a test, 0.3 % a set.
    /// </summary>
    public const double Deviations = 6;
}
