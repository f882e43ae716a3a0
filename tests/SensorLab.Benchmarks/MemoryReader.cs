using SensorLab.Frames;

namespace SensorLab.Benchmarks;

/// <summary>A frame whose codes lie in memory.</summary>
internal sealed class MemoryReader(RawFrame frame, ushort[] codes) : IMosaicReader
{
    private int _next;

    public RawFrame Frame => frame;

    public int PreferredRows => 64;

    public void ReadRows(Span<ushort> rows)
    {
        codes.AsSpan(_next, rows.Length).CopyTo(rows);
        _next += rows.Length;
    }

    public void Dispose()
    {
    }
}
