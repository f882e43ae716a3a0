using System.Buffers;
using SensorLab.Frames;

namespace SensorLab.RawFiles.LosslessJpeg;

/// <summary>A sliding window over entropy-coded data, with the stuffed zero bytes taken out, up to the next marker.</summary>
/// <remarks>ITU-T T.81, F.1.2.3 (byte stuffing) and B.1.1.2 (fill bytes). Unstuffing here keeps the test for 0xFF out of the decoding loop.</remarks>
internal sealed class EntropyBytes : IDisposable
{
    /// <summary>A frame in tiles has a window for each column of them, and a level as many frames as were shot: larger ones read no faster.</summary>
    private const int LargestWindowBytes = 1 << 14;
    private const int SmallestWindowBytes = 64;

    private readonly RandomAccessFile _file;
    private byte[] _stored = [];
    private byte[] _clean = [];
    private long _next;
    private long _end;
    private int _storedStart;
    private int _storedEnd;
    private int _cleanEnd;
    private bool _isAtMarker;

    /// <summary>Creates a window.</summary>
    /// <param name="file">The file that holds the data.</param>
    public EntropyBytes(RandomAccessFile file) => _file = file;

    /// <summary>The clean bytes at hand.</summary>
    public ReadOnlySpan<byte> Clean => _clean.AsSpan(0, _cleanEnd);

    /// <summary>Whether no more bytes follow before the next marker or the data's end.</summary>
    public bool IsLast => _isAtMarker || (_next == _end && _storedStart == _storedEnd);

    /// <summary>Moves the window to other data.</summary>
    /// <param name="offset">Their first byte.</param>
    /// <param name="end">The byte behind their last one.</param>
    public void Start(long offset, long end)
    {
        int size = (int)Math.Clamp(end - offset, SmallestWindowBytes, LargestWindowBytes);
        if (_stored.Length < size)
        {
            Dispose();
            _stored = ArrayPool<byte>.Shared.Rent(size);
            _clean = ArrayPool<byte>.Shared.Rent(2 * _stored.Length);
        }

        _next = offset;
        _end = end;
        _storedStart = _storedEnd = _cleanEnd = 0;
        _isAtMarker = false;
    }

    /// <summary>Drops the bytes that were used and adds what fits.</summary>
    /// <param name="used">How many of <see cref="Clean"/> were used.</param>
    public void Advance(int used)
    {
        _clean.AsSpan(used, _cleanEnd - used).CopyTo(_clean);
        _cleanEnd -= used;
        if (_isAtMarker)
        {
            return;
        }

        Load();
        Unstuff();
    }

    /// <summary>Passes a restart marker; what is left before it is dropped.</summary>
    /// <param name="number">The number that the marker must have, 0 to 7.</param>
    /// <exception cref="MalformedFileException">Another marker, or none, follows.</exception>
    public void PassRestart(int number)
    {
        while (!IsLast)
        {
            Advance(_cleanEnd);
        }

        _cleanEnd = 0;
        if (!_isAtMarker || _stored[_storedStart + 1] != JpegMarker.FirstRestart + number)
        {
            throw new MalformedFileException($"Restart marker {number} of the JPEG image is missing.");
        }

        _storedStart += 2;
        _isAtMarker = false;
    }

    /// <summary>Gives the window's memory back: the next frame's windows take it.</summary>
    public void Dispose()
    {
        if (_stored.Length > 0)
        {
            ArrayPool<byte>.Shared.Return(_stored);
            ArrayPool<byte>.Shared.Return(_clean);
            _stored = _clean = [];
        }
    }

    private void Load()
    {
        int kept = _storedEnd - _storedStart;
        _stored.AsSpan(_storedStart, kept).CopyTo(_stored);
        int added = (int)Math.Min(_stored.Length - kept, _end - _next);
        _file.Read(_next, _stored.AsSpan(kept, added));
        _next += added;
        _storedStart = 0;
        _storedEnd = kept + added;
    }

    private void Unstuff()
    {
        while (_storedStart < _storedEnd)
        {
            ReadOnlySpan<byte> rest = _stored.AsSpan(_storedStart, Math.Min(_storedEnd - _storedStart, _clean.Length - _cleanEnd));
            int prefix = rest.IndexOf(JpegMarker.Prefix);
            int plain = prefix < 0 ? rest.Length : prefix;
            rest[..plain].CopyTo(_clean.AsSpan(_cleanEnd));
            _cleanEnd += plain;
            _storedStart += plain;
            if (prefix < 0 || !PassPrefix())
            {
                return;
            }
        }
    }

    /// <summary>Passes a stuffed or a fill byte; false at a marker, or where the byte behind 0xFF is not at hand.</summary>
    private bool PassPrefix()
    {
        if (_storedStart + 1 == _storedEnd)
        {
            if (_next == _end)
            {
                _storedStart = _storedEnd;
            }

            return false;
        }

        byte follower = _stored[_storedStart + 1];
        switch (follower)
        {
            case 0:
                _clean[_cleanEnd++] = JpegMarker.Prefix;
                _storedStart += 2;
                return true;
            case JpegMarker.Prefix:
                _storedStart++;
                return true;
            default:
                _isAtMarker = true;
                return false;
        }
    }
}
