using System.Numerics;
using SensorLab.Frames;

namespace SensorLab.RawFiles.LibRaw;

/// <summary>Builds the frame that a decoded file holds, from what the library's proven layout lets be known.</summary>
internal sealed unsafe class LibRawFrameBuilder
{
    private const int NoFilters = 6;
    private const int FilterRows = 48;
    private const int MostMasks = 8;
    private const int LowestBitDepth = 8;
    private const int HighestBitDepth = 16;

    private static readonly int[] Sides = [2, 6];

    private readonly LibRawHandle _handle;
    private readonly LibRawLayout _layout;
    private readonly LibRawSizes _sizes;
    private readonly nint _parameters;

    /// <summary>Looks at a decoder.</summary>
    /// <param name="handle">A decoder with an open file.</param>
    /// <param name="layout">What is proven of its library.</param>
    /// <param name="sizes">Its sizes, checked.</param>
    public LibRawFrameBuilder(LibRawHandle handle, LibRawLayout layout, LibRawSizes sizes)
    {
        _handle = handle;
        _layout = layout;
        _sizes = sizes;
        _parameters = handle.Library.Parameters(handle.Data);
    }

    /// <summary>The filters from the visible area's top left.</summary>
    /// <exception cref="UnsupportedFileException">No mosaic, or none of red, green and blue that repeats after 2 or 6 rows and columns.</exception>
    public ColourFilterArray Filters()
    {
        int colours = *(int*)(_parameters + _layout.ColourCountOffset);
        if (ColourAt(0, 0) == NoFilters)
        {
            return colours == 1
                ? ColourFilterArray.Monochrome
                : throw LibRawRefusal.Unsuitable("Its data are no mosaic any more: several samples a pixel.");
        }

        // LibRaw's word for a pattern holds two columns and sixteen rows, its table six by six: it knows no others.
        int side = Sides.FirstOrDefault(RepeatsAfter);
        if (side == 0)
        {
            throw LibRawRefusal.UnsuitableMosaic("Its colour filters do not repeat after two or six rows and columns.");
        }

        string letters = string.Concat(Enumerable.Range(0, side * side).Select(i => Letter(ColourAt(i / side, i % side))));
        return ColourFilterArray.FromPattern(side, side, letters) ??
            throw LibRawRefusal.UnsuitableMosaic($"Its colour filters ({letters}) are no pattern of red, green and blue.");
    }

    /// <summary>The levels that LibRaw would use: the file's own, the masked borders' mean, or the body's known ones.</summary>
    /// <param name="filters">The filters.</param>
    public DeclaredLevels Levels(ColourFilterArray filters)
    {
        int maximum = _handle.Library.Maximum(_handle.Data);
        return new DeclaredLevels
        {
            BlackDn = _layout.BlackOffset is int offset ? Blacks(filters, offset) : new Dictionary<SensorChannel, double>(),
            WhiteDn = maximum > 0 ? maximum : null,
        };
    }

    /// <summary>Whether the maker's curve has steps that grow with the signal.</summary>
    public bool IsCompanded() =>
        _layout.BlackOffset is int offset && new LibRawBlack((uint*)(_handle.Data + offset)).CurveIsCompanding();

    /// <summary>The masked borders that LibRaw knows, where they lie outside of the visible area.</summary>
    public IReadOnlyList<PixelRectangle> Masks()
    {
        if (_layout.MaskOffset is not int offset)
        {
            return [];
        }

        PixelRectangle stored = new(0, 0, _sizes.RawWidth, _sizes.RawHeight);
        List<PixelRectangle> masks = [];
        for (int i = 0; i < MostMasks; i++)
        {
            int* mask = (int*)(_handle.Data + offset) + (4 * i);
            (int top, int left, int bottom, int right) = (mask[0], mask[1], mask[2], mask[3]);
            bool isOrdered = top >= 0 && left >= 0 && bottom > top && right > left && bottom <= _sizes.RawHeight && right <= _sizes.RawWidth;
            PixelRectangle rectangle = new(left, top, isOrdered ? right - left : 0, isOrdered ? bottom - top : 0);
            if (isOrdered && stored.Contains(rectangle) && !Touch(rectangle, _sizes.Visible))
            {
                masks.Add(rectangle);
            }
        }

        return masks;
    }

    /// <summary>Adds what LibRaw read to the metadata that the file's directories gave; these go first.</summary>
    /// <param name="metadata">From the directories.</param>
    /// <param name="compression">What the decoder's name says.</param>
    public FrameMetadata Complete(FrameMetadata metadata, string? compression)
    {
        float* exposure = (float*)_handle.Library.Other(_handle.Data);
        bool isKnown = _layout.HasExposure;
        return metadata with
        {
            Iso = metadata.Iso ?? (isKnown && exposure[0] is >= 1 and < int.MaxValue ? (int)MathF.Round(exposure[0]) : null),
            ExposureSeconds = metadata.ExposureSeconds ?? (isKnown ? Positive(exposure[1]) : null),
            ApertureFNumber = metadata.ApertureFNumber ?? (isKnown ? Positive(exposure[2]) : null),
            Maker = metadata.Maker ?? Name(isModel: false),
            Model = metadata.Model ?? Name(isModel: true),
            Mode = metadata.Mode with { Compression = metadata.Mode.Compression ?? compression },
        };
    }

    /// <summary>Bits that a code needs, 8 to 16.</summary>
    /// <param name="highestCode">The white level or the highest code of the frame, whichever is higher.</param>
    public static int BitDepth(int highestCode) =>
        Math.Clamp(BitOperations.Log2((uint)Math.Max(highestCode, 1)) + 1, LowestBitDepth, HighestBitDepth);

    private static bool Touch(PixelRectangle a, PixelRectangle b) =>
        a.X < b.Right && b.X < a.Right && a.Y < b.Bottom && b.Y < a.Bottom;

    private static double? Positive(float value) => value > 0 && float.IsFinite(value) ? value : null;

    private string? Name(bool isModel)
    {
        string name = _layout.HasNames ? LibRawLayout.Name(_parameters, isModel).Trim() : "";
        return name.Length > 0 && !name.Any(char.IsControl) ? name : null;
    }

    private bool RepeatsAfter(int side)
    {
        for (int i = 0; i < FilterRows * FilterRows; i++)
        {
            (int row, int column) = (i / FilterRows, i % FilterRows);
            if (Letter(ColourAt(row, column)) != Letter(ColourAt(row % side, column % side)))
            {
                return false;
            }
        }

        return true;
    }

    private int ColourAt(int row, int column) => _handle.Library.ColourAt(_handle.Data, row, column);

    private char Letter(int colour) => colour is >= 0 and < 4 ? (char)((byte*)(_parameters + _layout.FilterNamesOffset))[colour] : '?';

    private Dictionary<SensorChannel, double> Blacks(ColourFilterArray filters, int offset)
    {
        LibRawBlack black = new((uint*)(_handle.Data + offset));
        (int patternRows, int patternColumns) = black.PatternSize();
        int rows = filters.Rows * Math.Max(1, patternRows);
        int columns = filters.Columns * Math.Max(1, patternColumns);
        Dictionary<SensorChannel, (double Sum, int Count)> sums = [];
        for (int row = 0; row < rows; row++)
        {
            for (int column = 0; column < columns; column++)
            {
                SensorChannel channel = filters.ChannelAt(row, column);
                int colour = filters.IsMonochrome ? 0 : ColourAt(row, column);
                (double sum, int count) = sums.GetValueOrDefault(channel);
                sums[channel] = (sum + black.At(row, column, colour), count + 1);
            }
        }

        // LibRaw holds 0 both for a black level of 0 and for none: nothing is said then.
        return sums.Values.All(s => s.Sum == 0) ? [] : sums.ToDictionary(s => s.Key, s => s.Value.Sum / s.Value.Count);
    }
}
