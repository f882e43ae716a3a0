using System.Buffers;

namespace SensorLab.Pixels.Planes;

/// <summary>Some rows of one channel's plane of one frame.</summary>
internal sealed class PlaneBand : IDisposable
{
    private readonly ushort[] _values;

    public PlaneBand(int tallest, int width)
    {
        _values = ArrayPool<ushort>.Shared.Rent(tallest * width);
        Width = width;
    }

    public int Width { get; }

    /// <summary>Rows that stand in the band.</summary>
    public int Rows { get; private set; }

    /// <summary>All bits that any value of these rows has.</summary>
    public ushort Bits { get; private set; }

    /// <summary>All values from the start of a row on.</summary>
    public ReadOnlySpan<ushort> From(int row) => _values.AsSpan(row * Width);

    public Span<ushort> Row(int row) => _values.AsSpan(row * Width, Width);

    /// <inheritdoc/>
    public void Dispose() => ArrayPool<ushort>.Shared.Return(_values);

    /// <summary>Tells that a row was written; the first starts the band anew.</summary>
    /// <param name="row">The row, behind the last one or 0.</param>
    /// <param name="bits">All bits that any of its values has.</param>
    public void Close(int row, ushort bits)
    {
        Rows = row + 1;
        Bits = (ushort)(row == 0 ? bits : Bits | bits);
    }
}
