using SensorLab.Frames;
using SensorLab.RawFiles.Tiff;

namespace SensorLab.RawFiles.Dng;

/// <summary>Reads a mosaic's geometry from its directory.</summary>
/// <remarks>DNG 1.7, chapter 4: ActiveArea, MaskedAreas, CFAPattern (whose origin is the active area's top left).</remarks>
internal static class DngLayout
{
    /// <summary>No sensor is wider or higher; larger claims are damage.</summary>
    private const uint LongestSidePixels = 1 << 17;

    private const int MostMaskedAreas = 64;

    /// <summary>The geometry.</summary>
    /// <param name="raw">The raw image's directory.</param>
    /// <param name="bitDepth">Bits that the delivered codes need.</param>
    /// <exception cref="MalformedFileException">Sizes or rectangles that make no sense.</exception>
    /// <exception cref="UnsupportedFileException">The filters are no pattern of red, green and blue of 8×8 at most.</exception>
    public static MosaicLayout Read(TiffDirectory raw, int bitDepth)
    {
        (int width, int height) = SizeOf(raw);
        PixelRectangle stored = new(0, 0, width, height);
        ColourFilterArray filters = FiltersOf(raw);
        return new MosaicLayout
        {
            WidthPixels = width,
            HeightPixels = height,
            ActiveArea = ActiveAreaOf(raw, stored, filters),
            MaskedAreas = MaskedAreasOf(raw, stored),
            ColourFilterArray = filters,
            BitDepth = bitDepth,
        };
    }

    /// <summary>Stored columns and rows.</summary>
    /// <param name="raw">The raw image's directory.</param>
    /// <exception cref="MalformedFileException">None, or more than a sensor has.</exception>
    public static (int WidthPixels, int HeightPixels) SizeOf(TiffDirectory raw)
    {
        uint width = raw.Integer(TiffTag.ImageWidth) ?? 0;
        uint height = raw.Integer(TiffTag.ImageLength) ?? 0;
        return width is > 0 and <= LongestSidePixels && height is > 0 and <= LongestSidePixels
            ? ((int)width, (int)height)
            : throw new MalformedFileException($"The raw image claims {width}×{height} photosites.");
    }

    private static PixelRectangle ActiveAreaOf(TiffDirectory raw, PixelRectangle stored, ColourFilterArray filters)
    {
        if (!raw.Has(TiffTag.ActiveArea))
        {
            return stored;
        }

        uint[] edges = raw.Integers(TiffTag.ActiveArea, 4);
        PixelRectangle active = edges.Length == 4 ? RectangleOf(edges, stored) : default;
        return active.Width >= filters.Columns && active.Height >= filters.Rows
            ? active
            : throw new MalformedFileException("The active area holds no photosites.");
    }

    private static PixelRectangle[] MaskedAreasOf(TiffDirectory raw, PixelRectangle stored)
    {
        uint[] edges = raw.Integers(TiffTag.MaskedAreas, 4 * MostMaskedAreas);
        if (edges.Length % 4 != 0)
        {
            throw new MalformedFileException("The masked areas are no whole rectangles.");
        }

        return [.. edges.Chunk(4).Select(four => RectangleOf(four, stored)).Where(area => area.Area > 0)];
    }

    /// <summary>DNG writes rectangles as top, left, bottom, right, the last two exclusive.</summary>
    private static PixelRectangle RectangleOf(uint[] edges, PixelRectangle stored)
    {
        (uint top, uint left, uint bottom, uint right) = (edges[0], edges[1], edges[2], edges[3]);
        return top <= bottom && left <= right && bottom <= stored.Height && right <= stored.Width
            ? new PixelRectangle((int)left, (int)top, (int)(right - left), (int)(bottom - top))
            : throw new MalformedFileException($"The rectangle from {left},{top} to {right},{bottom} lies outside the raw image.");
    }

    private static ColourFilterArray FiltersOf(TiffDirectory raw)
    {
        if (raw.Integer(TiffTag.PhotometricInterpretation) != TiffPhotometric.ColourFilterArray)
        {
            return ColourFilterArray.Monochrome;
        }

        (int rows, int columns) = DngRawImage.PatternSizeOf(raw);
        uint[] colours = raw.Integers(TiffTag.CfaPattern, rows * columns);
        if (colours.Length != rows * columns)
        {
            throw DngRawImage.NotMeasurable($"Its colour filters are said to repeat after {rows} rows and {columns} columns, and {colours.Length} are named.");
        }

        string letters = string.Concat(colours.Select(LetterOf));
        return ColourFilterArray.FromPattern(rows, columns, letters)
            ?? throw DngRawImage.NotMeasurable($"Its colour filters ({letters}, {rows} rows of {columns}) are no pattern of red, green and blue.");
    }

    private static string LetterOf(uint colour) => colour switch
    {
        0 => "R",
        1 => "G",
        2 => "B",
        _ => "?",
    };
}
