using System.Numerics;
using SensorLab.Frames;
using SensorLab.RawFiles.Metadata;
using SensorLab.RawFiles.Tiff;

namespace SensorLab.RawFiles.Dng;

/// <summary>
/// Reads a DNG's mosaic from top to bottom in bands. A band costs its own size and a window for each column of tiles,
/// whatever the size of the file.
/// </summary>
/// <remarks>DNG 1.7. <see cref="MosaicLayout.BitDepth"/> covers the codes as delivered, after the linearisation table.</remarks>
internal sealed class DngMosaicReader : IMosaicReader
{
    /// <summary>Photosites in a band where strips or tiles are larger: 2 MiB.</summary>
    private const int BandPhotosites = 1 << 20;

    private readonly RandomAccessFile _file;
    private readonly SegmentLayout _segments;
    private readonly ISegmentReader[] _readers;
    private readonly LinearizationTable? _linearization;
    private int _nextRow;

    private DngMosaicReader(string path, RandomAccessFile file, TiffReader tiff, FrameMetadata? known)
    {
        _file = file;
        TiffDirectory raw = DngRawImage.Find(tiff);
        DngRawImage.RequireSensorData(raw);
        PicturePlaces.RequireInside(file, tiff.Images.Where(directory => directory != raw));
        _segments = SegmentLayout.Read(file, raw);
        _linearization = LinearizationTable.Read(raw);
        int storedBits = SegmentReaders.BitDepthOf(file, raw, _segments);
        Frame = FrameOf(raw, storedBits, _linearization, known ?? MetadataReader.Read(path));
        UnsuitableRecording.Refuse(Frame);
        _readers = SegmentReaders.Create(file, tiff, raw, _segments, storedBits);
    }

    /// <inheritdoc/>
    public RawFrame Frame { get; }

    /// <inheritdoc/>
    public int PreferredRows
    {
        get
        {
            int most = Math.Max(1, BandPhotosites / Frame.Layout.WidthPixels);
            return _segments.Height <= most || _segments.Across > 1 ? _segments.Height : most;
        }
    }

    /// <inheritdoc/>
    public int RestartRows => _readers[0].CanSkip ? 1 : Math.Min(_segments.Height, Frame.Layout.HeightPixels);

    /// <summary>Opens a file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="known">Its metadata, as an earlier opening gave them; null to read them.</param>
    /// <exception cref="IOException">The file is not there or cannot be opened.</exception>
    /// <exception cref="UnauthorizedAccessException">The file may not be read, or is a folder.</exception>
    /// <exception cref="MalformedFileException">The file is no TIFF file, truncated, damaged or hostile.</exception>
    /// <exception cref="UnsupportedFileException">It holds no raw image, or one that is refused here.</exception>
    public static DngMosaicReader Open(string path, FrameMetadata? known = null)
    {
        RandomAccessFile file = RandomAccessFile.Open(path);
        try
        {
            return new DngMosaicReader(path, file, TiffReader.Read(file), known);
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    /// <summary>Opens a file whose metadata are known, and takes its hash on the way.</summary>
    /// <param name="path">The file.</param>
    /// <param name="known">The metadata, as an earlier opening gave them.</param>
    /// <exception cref="IOException">The file is not there or cannot be opened.</exception>
    /// <exception cref="UnauthorizedAccessException">The file may not be read, or is a folder.</exception>
    /// <exception cref="MalformedFileException">The file is no TIFF file, truncated, damaged or hostile.</exception>
    /// <exception cref="UnsupportedFileException">It holds no raw image, or one that is refused here.</exception>
    public static HashedMosaicReader OpenHashed(string path, FrameMetadata known)
    {
        RandomAccessFile file = RandomAccessFile.Open(path);
        try
        {
            return new HashedMosaicReader(new DngMosaicReader(path, file, TiffReader.Read(file), known), file).Following();
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public void ReadRows(Span<ushort> rows)
    {
        int width = Frame.Layout.WidthPixels;
        if (rows.Length % width != 0 || rows.Length / width > Frame.Layout.HeightPixels - _nextRow)
        {
            throw new ArgumentException($"{rows.Length} photosites are no whole rows of {width}, or more rows than are left.", nameof(rows));
        }

        Span<ushort> rest = rows;
        while (!rest.IsEmpty)
        {
            int band = _nextRow / _segments.Height;
            int leftInBand = (band * _segments.Height) + _segments.RowsOf(band) - _nextRow;
            int count = Math.Min(rest.Length / width, leftInBand);
            ReadBand(rest[..(count * width)], band, count);
            rest = rest[(count * width)..];
            _nextRow += count;
        }

        _linearization?.Apply(rows);
    }

    /// <inheritdoc/>
    public void SkipRows(int count)
    {
        int target = _nextRow + count;
        if (count < 0 || target > Frame.Layout.HeightPixels)
        {
            throw new ArgumentException($"{count} rows are more than are left.", nameof(count));
        }

        if (target / _segments.Height > _nextRow / _segments.Height)
        {
            _nextRow = target / _segments.Height * _segments.Height;
        }

        var row = new ushort[_readers[0].CanSkip ? 0 : Frame.Layout.WidthPixels];
        while (_nextRow < target)
        {
            int rows = _readers[0].CanSkip ? target - _nextRow : 1;
            ReadBand(row, _nextRow / _segments.Height, rows);
            _nextRow += rows;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (ISegmentReader reader in _readers)
        {
            reader.Dispose();
        }

        _file.Dispose();
    }

    /// <summary>Reads rows of a band; passes over them where there is no place for them.</summary>
    private void ReadBand(Span<ushort> rows, int band, int count)
    {
        int width = Frame.Layout.WidthPixels;
        bool isStart = _nextRow % _segments.Height == 0;
        for (int column = 0; column < _readers.Length; column++)
        {
            int left = column * _segments.Width;
            if (isStart)
            {
                (long offset, long bytes) = _segments.PlaceOf(column, band);
                _readers[column].Start(offset, bytes, _segments.RowsOf(band));
            }

            if (rows.IsEmpty)
            {
                _readers[column].Skip(count);
            }
            else
            {
                _readers[column].ReadRows(rows[left..], width, Math.Min(_segments.Width, width - left), count);
            }
        }
    }

    private static RawFrame FrameOf(TiffDirectory raw, int storedBits, LinearizationTable? linearization, FrameMetadata metadata)
    {
        MosaicLayout layout = DngLayout.Read(raw, Math.Max(storedBits, linearization?.BitDepth ?? 0));
        DeclaredLevels declared = DngLevels.Read(raw, layout);
        return new RawFrame
        {
            Metadata = metadata with { Mode = ModeOf(metadata.Mode, raw, storedBits, linearization is null ? declared.WhiteDn : null) },
            Layout = layout,
            Declared = declared,
            IsCompanded = linearization?.IsCompanding ?? false,
        };
    }

    /// <summary>Bodies store 12 or 14 bits in 16: a white level below the container's tells how many were recorded.</summary>
    private static RecordingMode ModeOf(RecordingMode mode, TiffDirectory raw, int storedBits, double? whiteDn)
    {
        int recordedBits = whiteDn is >= 1 and <= ushort.MaxValue ? BitOperations.Log2((uint)whiteDn) + 1 : storedBits;
        return mode with { BitDepth = Math.Min(recordedBits, storedBits), Compression = CompressionNameOf(raw) };
    }

    private static string CompressionNameOf(TiffDirectory raw) => raw.Integer(TiffTag.Compression) switch
    {
        TiffCompression.Jpeg => "lossless",
        TiffCompression.Deflate => "deflate",
        _ => "uncompressed",
    };
}
