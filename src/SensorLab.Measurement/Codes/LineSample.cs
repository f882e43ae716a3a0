namespace SensorLab.Measurement.Codes;

/// <summary>What the pixels of a line share, of which a set holds a sample: rows or columns, of one pattern or of each frame's noise, or whole frames.</summary>
/// <param name="VarianceDn2">Its variance in DN², 0 or more.</param>
/// <param name="Lines">Lines, or frames, that it was drawn for.</param>
internal readonly record struct LineSample(double VarianceDn2, double Lines)
{
    /// <summary>The same with codes counted in steps.</summary>
    /// <param name="stepDn">Spacing of codes in DN.</param>
    public LineSample InSteps(double stepDn) => this with { VarianceDn2 = VarianceDn2 / (stepDn * stepDn) };
}
