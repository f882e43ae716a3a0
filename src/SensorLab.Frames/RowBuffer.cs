using System.Buffers;

namespace SensorLab.Frames;

/// <summary>Hands a frame's rows out one by one and reads them as many at a time as the reader likes.</summary>
public sealed class RowBuffer : IDisposable
{
    /// <summary>Photosites held at most: half a megabyte stays in the processor's cache while it is hashed and measured.</summary>
    private const int MostPhotosites = 1 << 18;

    private readonly IMosaicReader _reader;
    private readonly int _width;
    private readonly ushort[] _values;
    private readonly int _rowsAtOnce;
    private int _rowsLeft;
    private int _held;
    private int _next;

    /// <summary>Begins at the frame's first row.</summary>
    /// <param name="reader">The frame, at its first row; not disposed with this.</param>
    public RowBuffer(IMosaicReader reader)
    {
        _reader = reader;
        _width = reader.Frame.Layout.WidthPixels;
        _rowsLeft = reader.Frame.Layout.HeightPixels;
        _rowsAtOnce = Math.Min(_rowsLeft, Math.Clamp(reader.PreferredRows, 1, Math.Max(1, MostPhotosites / _width)));
        _values = ArrayPool<ushort>.Shared.Rent(_rowsAtOnce * _width);
    }

    /// <summary>The next row, margins included; valid until the next call.</summary>
    /// <exception cref="MalformedFileException">The file's data are damaged.</exception>
    public ReadOnlySpan<ushort> Next()
    {
        if (_next == _held)
        {
            _held = Math.Min(_rowsAtOnce, _rowsLeft);
            _reader.ReadRows(_values.AsSpan(0, _held * _width));
            _rowsLeft -= _held;
            _next = 0;
        }

        return _values.AsSpan(_next++ * _width, _width);
    }

    /// <inheritdoc/>
    public void Dispose() => ArrayPool<ushort>.Shared.Return(_values);
}
