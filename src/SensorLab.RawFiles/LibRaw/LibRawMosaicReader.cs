using System.Numerics;
using System.Runtime.InteropServices;
using SensorLab.Frames;
using SensorLab.RawFiles.Metadata;

namespace SensorLab.RawFiles.LibRaw;

/// <summary>Reads a maker's raw file through LibRaw; each reader has a decoder of its own.</summary>
/// <remarks>
/// The whole mosaic, masked borders included, where the library's layout is proven on a known file; else
/// the visible area alone, as libraw_raw2image gives it. No black is subtracted.
/// </remarks>
internal sealed unsafe class LibRawMosaicReader : IMosaicReader
{
    private const int RowsAtATime = 128;
    private const int SamplesPerPhotosite = 4;

    private readonly LibRawHandle _handle;
    private readonly LibRawSizes _sizes;
    private readonly byte* _mosaic;
    private readonly bool _isWhole;
    private int _nextRow;

    private LibRawMosaicReader(LibRawHandle handle, LibRawSizes sizes, byte* mosaic, bool isWhole, RawFrame frame)
    {
        _handle = handle;
        _sizes = sizes;
        _mosaic = mosaic;
        _isWhole = isWhole;
        Frame = frame;
    }

    /// <inheritdoc/>
    public RawFrame Frame { get; private set; }

    /// <inheritdoc/>
    public int PreferredRows => RowsAtATime;

    /// <summary>Opens and decodes a file.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="MalformedFileException">The file is truncated, damaged or names what it cannot hold.</exception>
    /// <exception cref="UnsupportedFileException">No LibRaw is installed, it cannot decode the file, or the data are of no mosaic of red, green and blue that it knows, nor a monochrome sensor's.</exception>
    /// <exception cref="IOException">The file cannot be read.</exception>
    /// <exception cref="InsufficientMemoryException">There is no room for the decoded mosaic.</exception>
    public static IMosaicReader Open(string path) => Open(path, () => LibRawLibrary.Installed, layout => layout);

    /// <summary>As <see cref="Open(string)"/>, with the library and what is believed of its layout from the caller.</summary>
    /// <param name="path">The file.</param>
    /// <param name="library">Asked only when the file passed its first checks; null for none installed.</param>
    /// <param name="trust">What of the proven layout to use.</param>
    internal static IMosaicReader Open(string path, Func<LibRawLibrary?> library, Func<LibRawLayout, LibRawLayout> trust)
    {
        long fileBytes;
        using (RandomAccessFile file = RandomAccessFile.Open(path))
        {
            RawFileScreen.Check(file);
            fileBytes = file.Length;
        }

        LibRawLibrary bound = library() ?? throw LibRawRefusal.LibraryMissing();
        LibRawLayout layout = trust(bound.Layout ?? throw LibRawRefusal.LibraryMissing());
        LibRawHandle handle = bound.Create();
        try
        {
            return Decode(handle, layout, path, fileBytes);
        }
        catch
        {
            handle.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public int RestartRows => 1;

    /// <inheritdoc/>
    public void SkipRows(int count)
    {
        if (count < 0 || count > Frame.Layout.HeightPixels - _nextRow)
        {
            throw new ArgumentException("More rows than are left.", nameof(count));
        }

        _nextRow += count;
    }

    /// <inheritdoc/>
    public void ReadRows(Span<ushort> rows)
    {
        int width = Frame.Layout.WidthPixels;
        if (rows.Length % width != 0 || rows.Length / width > Frame.Layout.HeightPixels - _nextRow)
        {
            throw new ArgumentException("The length is no whole number of the rows left.", nameof(rows));
        }

        ObjectDisposedException.ThrowIf(_handle.IsClosed, this);
        for (int start = 0; start < rows.Length; start += width, _nextRow++)
        {
            CopyRow(_nextRow, rows.Slice(start, width));
        }

        GC.KeepAlive(_handle);
    }

    /// <inheritdoc/>
    public void Dispose() => _handle.Dispose();

    private static LibRawMosaicReader Decode(LibRawHandle handle, LibRawLayout layout, string path, long fileBytes)
    {
        LibRawLibrary library = handle.Library;
        Require(library.OpenFile(handle.Data, Path.GetFullPath(path)));
        LibRawDecoder decoder = LibRawDecoder.FromName(library.DecoderName(handle.Data));
        if (decoder.Unsuitable is string reason)
        {
            throw LibRawRefusal.Unsuitable(reason);
        }

        LibRawSizes.Of(handle).Check(fileBytes, decoder);
        _ = new LibRawFrameBuilder(handle, layout, LibRawSizes.Of(handle)).Filters();
        Require(library.Unpack(handle.Data));
        LibRawSizes sizes = LibRawSizes.Of(handle);
        sizes.Check(fileBytes, decoder);
        bool isWhole = layout.RawImageOffset is not null;
        byte* mosaic = isWhole ? WholeMosaic(handle, layout, sizes) : VisibleMosaic(handle, sizes);
        if (handle.DataErrors > 0)
        {
            throw new MalformedFileException("The picture data are damaged: decoding them met errors.");
        }

        LibRawFrameBuilder builder = new(handle, layout, sizes);
        RawFrame frame = Describe(builder, sizes, isWhole, builder.Complete(MetadataReader.Read(path), decoder.Compression));
        UnsuitableRecording.Refuse(frame);
        LibRawMosaicReader reader = new(handle, sizes, mosaic, isWhole, frame);
        reader.RaiseBitDepth();
        return reader;
    }

    private static RawFrame Describe(LibRawFrameBuilder builder, LibRawSizes sizes, bool isWhole, FrameMetadata metadata)
    {
        ColourFilterArray filters = builder.Filters();
        DeclaredLevels levels = builder.Levels(filters);
        return new RawFrame
        {
            Metadata = metadata,
            Declared = levels,
            IsCompanded = builder.IsCompanded(),
            Layout = new MosaicLayout
            {
                WidthPixels = isWhole ? sizes.RawWidth : sizes.Visible.Width,
                HeightPixels = isWhole ? sizes.RawHeight : sizes.Visible.Height,
                ActiveArea = isWhole ? sizes.Visible : sizes.Visible with { X = 0, Y = 0 },
                MaskedAreas = isWhole ? builder.Masks() : [],
                ColourFilterArray = filters,
                BitDepth = LibRawFrameBuilder.BitDepth((int)(levels.WhiteDn ?? 0)),
            },
        };
    }

    private static byte* WholeMosaic(LibRawHandle handle, LibRawLayout layout, LibRawSizes sizes)
    {
        byte* mosaic = *(byte**)(handle.Data + layout.RawImageOffset!.Value);
        if (mosaic is null)
        {
            throw LibRawRefusal.Unsuitable("Its data are no mosaic any more: several samples a pixel.");
        }

        return sizes.PitchBytes >= 2 * sizes.RawWidth && sizes.PitchBytes % 2 == 0
            ? mosaic
            : throw new MalformedFileException("The file's rows are shorter than its mosaic is wide.");
    }

    private static byte* VisibleMosaic(LibRawHandle handle, LibRawSizes sizes)
    {
        Require(handle.Library.RawToImage(handle.Data));
        byte* image = *(byte**)handle.Data;
        return image is not null && LibRawSizes.ImageIsUnshrunk(handle, sizes) ? image : throw LibRawRefusal.NotDecoded();
    }

    private static void Require(LibRawStatus status)
    {
        if (status != LibRawStatus.Success)
        {
            throw LibRawRefusal.From(status);
        }
    }

    private void CopyRow(int row, Span<ushort> target)
    {
        if (_isWhole)
        {
            Row(row).CopyTo(target);
            return;
        }

        ushort* source = (ushort*)_mosaic + ((long)row * target.Length * SamplesPerPhotosite);
        bool isMonochrome = Frame.Layout.ColourFilterArray.IsMonochrome;
        for (int column = 0; column < target.Length; column++)
        {
            int sample = isMonochrome ? 0 : _handle.Library.ColourAt(_handle.Data, row, column);
            target[column] = source[(SamplesPerPhotosite * column) + sample];
        }
    }

    private ReadOnlySpan<ushort> Row(int row) => new(_mosaic + ((long)row * _sizes.PitchBytes), _sizes.RawWidth);

    /// <summary>LibRaw's white level can lie below the converter's ceiling; the codes tell.</summary>
    private void RaiseBitDepth()
    {
        int highest = 0;
        for (int row = 0; _isWhole && row < _sizes.RawHeight; row++)
        {
            highest = Math.Max(highest, Highest(Row(row)));
        }

        int bits = LibRawFrameBuilder.BitDepth(highest);
        if (bits > Frame.Layout.BitDepth)
        {
            Frame = Frame with { Layout = Frame.Layout with { BitDepth = bits } };
        }
    }

    private static ushort Highest(ReadOnlySpan<ushort> row)
    {
        Vector<ushort> highest = Vector<ushort>.Zero;
        ReadOnlySpan<Vector<ushort>> vectors = MemoryMarshal.Cast<ushort, Vector<ushort>>(row);
        foreach (Vector<ushort> vector in vectors)
        {
            highest = Vector.Max(highest, vector);
        }

        ushort result = 0;
        for (int i = 0; i < Vector<ushort>.Count; i++)
        {
            result = Math.Max(result, highest[i]);
        }

        foreach (ushort code in row[(vectors.Length * Vector<ushort>.Count)..])
        {
            result = Math.Max(result, code);
        }

        return result;
    }
}
