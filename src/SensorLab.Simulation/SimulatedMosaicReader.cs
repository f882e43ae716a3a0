using SensorLab.Frames;

namespace SensorLab.Simulation;

/// <summary>Delivers a simulated frame from memory, so that studies need no files.</summary>
public sealed class SimulatedMosaicReader : IMosaicReader
{
    private readonly ReadOnlyMemory<ushort> _codes;
    private int _nextRow;

    /// <summary>Wraps codes as a frame.</summary>
    /// <param name="frame">What the frame says of itself.</param>
    /// <param name="codes">Its codes in DN, stored rows × stored columns.</param>
    /// <exception cref="ArgumentException">The number of codes is not that of the layout.</exception>
    public SimulatedMosaicReader(RawFrame frame, ReadOnlyMemory<ushort> codes)
    {
        int expected = frame.Layout.WidthPixels * frame.Layout.HeightPixels;
        if (codes.Length != expected)
        {
            throw new ArgumentException($"The layout has {expected} photosites, the codes {codes.Length}.", nameof(codes));
        }

        Frame = frame;
        _codes = codes;
    }

    /// <inheritdoc/>
    public RawFrame Frame { get; }

    /// <inheritdoc/>
    public int PreferredRows => Frame.Layout.HeightPixels;

    /// <inheritdoc/>
    public void ReadRows(Span<ushort> rows)
    {
        int width = Frame.Layout.WidthPixels;
        int count = rows.Length / width;
        if (rows.Length % width != 0 || count > Frame.Layout.HeightPixels - _nextRow)
        {
            throw new ArgumentException("The destination must hold whole rows, and no more than are left.", nameof(rows));
        }

        _codes.Span.Slice(_nextRow * width, rows.Length).CopyTo(rows);
        _nextRow += count;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
    }
}
