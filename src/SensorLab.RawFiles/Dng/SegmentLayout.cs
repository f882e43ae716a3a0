using SensorLab.Frames;
using SensorLab.RawFiles.Tiff;

namespace SensorLab.RawFiles.Dng;

/// <summary>How an image is cut into strips or tiles: strips are tiles as wide as the image.</summary>
/// <remarks>TIFF 6.0, sections 3 and 15.</remarks>
internal sealed class SegmentLayout
{
    private const uint LongestTileSide = 1 << 17;

    /// <summary>Each segment of a row has a reader of its own; tiles are not so narrow that a row has more.</summary>
    private const int MostAcross = 1024;

    private readonly uint[] _offsets;
    private readonly uint[] _byteCounts;

    private SegmentLayout(RandomAccessFile file, int imageHeight, (int Width, int Height, bool Tiled) segment, int across, (uint[] Offsets, uint[] ByteCounts) places)
    {
        (Width, Height, IsTiled) = segment;
        Across = across;
        ImageHeight = imageHeight;
        (_offsets, _byteCounts) = places;
        long total = 0;
        for (int i = 0; i < _offsets.Length; i++)
        {
            total += _byteCounts[i];
            if (!file.Holds(_offsets[i], _byteCounts[i]))
            {
                throw new MalformedFileException($"Strip or tile {i} of the raw image lies outside the file.");
            }
        }

        if (total > file.Length)
        {
            throw new MalformedFileException("The strips or tiles of the raw image overlap.");
        }
    }

    /// <summary>Columns of a segment.</summary>
    public int Width { get; }

    /// <summary>Rows of a segment; the last strip may have fewer.</summary>
    public int Height { get; }

    /// <summary>Whether segments are tiles, which are always whole.</summary>
    public bool IsTiled { get; }

    /// <summary>Segments side by side.</summary>
    public int Across { get; }

    /// <summary>Rows of the image.</summary>
    public int ImageHeight { get; }

    /// <summary>Reads the cut of an image.</summary>
    /// <param name="file">The file.</param>
    /// <param name="raw">The raw image's directory.</param>
    /// <exception cref="MalformedFileException">Another number of segments than the sizes ask for, too many side by side, or segments that overlap or lie outside the file.</exception>
    public static SegmentLayout Read(RandomAccessFile file, TiffDirectory raw)
    {
        (int width, int height) = DngLayout.SizeOf(raw);
        bool isTiled = raw.Has(TiffTag.TileWidth) || raw.Has(TiffTag.TileOffsets);
        (int segmentWidth, int segmentHeight) = isTiled ? TileSizeOf(raw) : (width, StripHeightOf(raw, height));
        int across = (width + segmentWidth - 1) / segmentWidth;
        if (across > MostAcross)
        {
            throw new MalformedFileException($"The raw image claims {across} tiles side by side.");
        }

        long count = across * (long)((height + segmentHeight - 1) / segmentHeight);
        uint[] offsets = Exactly(raw, isTiled ? TiffTag.TileOffsets : TiffTag.StripOffsets, count);
        uint[] byteCounts = Exactly(raw, isTiled ? TiffTag.TileByteCounts : TiffTag.StripByteCounts, count);
        return new SegmentLayout(file, height, (segmentWidth, segmentHeight, isTiled), across, (offsets, byteCounts));
    }

    /// <summary>Where a segment lies.</summary>
    /// <param name="column">Its place from the left.</param>
    /// <param name="band">Its place from the top.</param>
    public (long Offset, long Bytes) PlaceOf(int column, int band)
    {
        int index = (band * Across) + column;
        return (_offsets[index], _byteCounts[index]);
    }

    /// <summary>Rows of a band's segments that the image has.</summary>
    /// <param name="band">The band's place from the top.</param>
    public int RowsOf(int band) => Math.Min(Height, ImageHeight - (band * Height));

    /// <summary>The segments' bytes, one after the other, in the order of the image.</summary>
    public IEnumerable<(long Offset, long Bytes)> Places =>
        _offsets.Zip(_byteCounts, (offset, bytes) => ((long)offset, (long)bytes));

    private static (int Width, int Height) TileSizeOf(TiffDirectory raw)
    {
        uint width = raw.Integer(TiffTag.TileWidth) ?? 0;
        uint height = raw.Integer(TiffTag.TileLength) ?? 0;
        return width is > 0 and <= LongestTileSide && height is > 0 and <= LongestTileSide
            ? ((int)width, (int)height)
            : throw new MalformedFileException($"The raw image claims tiles of {width}×{height} photosites.");
    }

    private static int StripHeightOf(TiffDirectory raw, int height)
    {
        uint rows = raw.Integer(TiffTag.RowsPerStrip) ?? uint.MaxValue;
        return rows > 0 ? (int)Math.Min(rows, (uint)height) : throw new MalformedFileException("The raw image claims strips of no rows.");
    }

    private static uint[] Exactly(TiffDirectory raw, ushort tag, long count) => raw.CountOf(tag) == count
        ? raw.Integers(tag, count)
        : throw new MalformedFileException($"The raw image lists {raw.CountOf(tag)} strips or tiles (tag {tag}) where its size asks for {count}.");
}
