namespace SensorLab.Measurement.Model;

/// <summary>A part of the fixed pattern, and what it was seen on.</summary>
/// <param name="Part">The part of pixels, rows or columns.</param>
/// <param name="PixelsOfMean">What the pixels' own pattern adds to a line's mean; null for the pixels themselves.</param>
/// <param name="Count">How many independent pixels or lines.</param>
public sealed record SampledPattern(FixedPattern Part, FixedPattern? PixelsOfMean, double Count)
{
    /// <summary>The same for DSNU, which may have been seen on more of them.</summary>
    public double DarkCount { get; init; } = Count;

    /// <summary>The part of DSNU² in DN² that varies from draw to draw of pixels or lines.</summary>
    public double DsnuSquareDn2 => Part.DsnuSquareDn2.Value + (PixelsOfMean?.DsnuSquareDn2.Value ?? 0);

    /// <summary>The part of PRNU² that varies from draw to draw of pixels or lines.</summary>
    public double PrnuSquare => Part.PrnuSquare.Value + (PixelsOfMean?.PrnuSquare.Value ?? 0);
}
