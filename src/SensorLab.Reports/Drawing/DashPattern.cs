namespace SensorLab.Reports.Drawing;

/// <summary>How a line is broken: strokes and gaps in pixels, in turn; none for an unbroken line.</summary>
/// <param name="Lengths">An even count of lengths above 0, or none.</param>
internal readonly record struct DashPattern(params float[] Lengths)
{
    /// <summary>An unbroken line.</summary>
    public static DashPattern Solid { get; } = new([]);

    /// <summary>Long strokes.</summary>
    public static DashPattern Dashed { get; } = new(10, 6);

    /// <summary>Dots.</summary>
    public static DashPattern Dotted { get; } = new(2.5f, 4);

    /// <summary>A stroke and a dot in turn.</summary>
    public static DashPattern DashDot { get; } = new(11, 4, 2.5f, 4);
}
