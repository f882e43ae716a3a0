namespace SensorLab.Measurement.Statistics;

/// <summary>Some rows of one channel's plane of one frame.</summary>
internal sealed class PlaneBand
{
    private readonly ushort[] _values;

    public PlaneBand(int tallest, int width)
    {
        _values = new ushort[tallest * width];
        Width = width;
    }

    public int Width { get; }

    public int Rows { get; set; }

    /// <summary>All values from the start of a row on.</summary>
    public ReadOnlySpan<ushort> From(int row) => _values.AsSpan(row * Width);

    public Span<ushort> Row(int row) => _values.AsSpan(row * Width, Width);
}
