using System.Globalization;

namespace SensorLab.Frames;

/// <summary>The colour filters of a sensor: a pattern of up to 8×8 that repeats, named from the top left photosite of the active area.</summary>
/// <remarks>
/// DNG 1.7, tags CFARepeatPatternDim and CFAPattern; monochrome sensors have none. A channel is a colour; green is two
/// channels where its photosites lie beside different colours, since what they share with their neighbours differs by
/// design: G1 where the filter next to it in its row that is not green is red, G2 where it is blue. Where the row does not
/// tell (both are as near, or there is none), the column does: G1 beside blue, G2 beside red. In the Bayer orders that is
/// green in the rows of red, and of blue. Where neither tells, it is G1, and where all would
/// be G2.
/// </remarks>
public readonly record struct ColourFilterArray
{
    /// <summary>The name of an array without filters.</summary>
    public const string MonochromeName = "monochrome";

    /// <summary>Photosites a side of the largest pattern.</summary>
    public const int LargestSide = 8;

    private const string Letters = "RGB";
    private const char SizeMark = ':';

    private static readonly SensorChannel[] MonochromeChannels = [SensorChannel.Y];
    private static readonly SensorChannel[] FourChannels = [SensorChannel.R, SensorChannel.G1, SensorChannel.G2, SensorChannel.B];
    private static readonly SensorChannel[] ThreeChannels = [SensorChannel.R, SensorChannel.G1, SensorChannel.B];

    private readonly string? _letters;

    /// <summary>The channel of each photosite of the pattern, as a character whose code is the channel's number.</summary>
    private readonly string? _channels;
    private readonly byte _rows;
    private readonly byte _columns;

    private ColourFilterArray(int rows, int columns, string letters)
    {
        (_rows, _columns, _letters) = ((byte)rows, (byte)columns, letters);
        _channels = string.Create(letters.Length, (rows, columns, letters), static (target, of) =>
        {
            for (int i = 0; i < target.Length; i++)
            {
                target[i] = (char)ChannelOf(of.letters, of.rows, of.columns, i / of.columns, i % of.columns);
            }

            if (!target.Contains((char)SensorChannel.G1))
            {
                target.Replace((char)SensorChannel.G2, (char)SensorChannel.G1);
            }
        });
    }

    /// <summary>No filters: every photosite is channel Y.</summary>
    public static ColourFilterArray Monochrome => default;

    /// <summary>Red top left.</summary>
    public static ColourFilterArray Rggb { get; } = new(2, 2, "RGGB");

    /// <summary>Blue top left.</summary>
    public static ColourFilterArray Bggr { get; } = new(2, 2, "BGGR");

    /// <summary>Green top left beside red.</summary>
    public static ColourFilterArray Grbg { get; } = new(2, 2, "GRBG");

    /// <summary>Green top left beside blue.</summary>
    public static ColourFilterArray Gbrg { get; } = new(2, 2, "GBRG");

    /// <summary>Whether the sensor has no filters.</summary>
    public bool IsMonochrome => _letters is null;

    /// <summary>
    /// The four letters of a Bayer order in reading order; of any other pattern its rows and columns before the letters, as
    /// in <c>4x4:RRGGRRGGGGBBGGBB</c>; or <see cref="MonochromeName"/>.
    /// </summary>
    public string Name => _letters is null ? MonochromeName
        : IsBayer(_letters) ? _letters
        : string.Create(CultureInfo.InvariantCulture, $"{_rows}x{_columns}{SizeMark}{_letters}");

    /// <summary>The letters R, G and B of the pattern in reading order; empty without filters.</summary>
    public string Pattern => _letters ?? "";

    /// <summary>Rows after which the pattern repeats; 1 without filters.</summary>
    public int Rows => Math.Max((int)_rows, 1);

    /// <summary>Columns after which the pattern repeats; 1 without filters.</summary>
    public int Columns => Math.Max((int)_columns, 1);

    /// <summary>The channels in the order in which profiles list them.</summary>
    public IReadOnlyList<SensorChannel> Channels =>
        _channels is null ? MonochromeChannels : _channels.Contains((char)SensorChannel.G2, StringComparison.Ordinal) ? FourChannels : ThreeChannels;

    /// <summary>The array of that name.</summary>
    /// <param name="name">As <see cref="Name"/> gives it.</param>
    /// <returns>The array, or null where the name is none of an array of red, green and blue with at most <see cref="LargestSide"/> rows and columns.</returns>
    public static ColourFilterArray? FromName(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        if (name == MonochromeName)
        {
            return Monochrome;
        }

        if (name.Split(SizeMark) is not [var size, var letters])
        {
            return IsBayer(name) ? FromPattern(2, 2, name) : null;
        }

        return size.Split('x') is [var rows, var columns]
            && int.TryParse(rows, NumberStyles.None, CultureInfo.InvariantCulture, out int height)
            && int.TryParse(columns, NumberStyles.None, CultureInfo.InvariantCulture, out int width)
                ? FromPattern(height, width, letters)
                : null;
    }

    /// <summary>The array of a pattern; one that repeats inside itself is taken for its smallest part.</summary>
    /// <param name="rows">Rows of the pattern.</param>
    /// <param name="columns">Its columns.</param>
    /// <param name="letters">R, G and B in reading order.</param>
    /// <returns>The array; null where the pattern has no rows or columns, more than <see cref="LargestSide"/>, another number of letters, or lacks red, green or blue.</returns>
    public static ColourFilterArray? FromPattern(int rows, int columns, string letters)
    {
        ArgumentNullException.ThrowIfNull(letters);
        if (rows is < 1 or > LargestSide || columns is < 1 or > LargestSide || letters.Length != rows * columns
            || letters.AsSpan().ContainsAnyExcept(Letters) || !Letters.All(letters.Contains))
        {
            return null;
        }

        int height = Enumerable.Range(1, rows).First(step => rows % step == 0 && Enumerable.Range(0, letters.Length - (step * columns)).All(i => letters[i] == letters[i + (step * columns)]));
        int width = Enumerable.Range(1, columns).First(step => columns % step == 0 && Enumerable.Range(0, letters.Length - step).All(i => i % columns >= columns - step || letters[i] == letters[i + step]));
        return new ColourFilterArray(height, width, string.Concat(Enumerable.Range(0, height).Select(row => letters.Substring(row * columns, width))));
    }

    /// <summary>The channel of a photosite.</summary>
    /// <param name="row">Row from the active area's top; may be negative in a margin.</param>
    /// <param name="column">Column from the active area's left; may be negative in a margin.</param>
    public SensorChannel ChannelAt(int row, int column) =>
        _channels is null ? SensorChannel.Y : (SensorChannel)_channels[(Inside(row, _rows) * _columns) + Inside(column, _columns)];

    /// <summary>The photosites of a channel in one repeat of the pattern, in reading order.</summary>
    /// <param name="channel">A channel.</param>
    /// <returns>Rows and columns from the active area's top left; none where the array lacks the channel.</returns>
    public IReadOnlyList<(int Row, int Column)> SitesOf(SensorChannel channel)
    {
        List<(int Row, int Column)> sites = [];
        for (int row = 0; row < Rows; row++)
        {
            for (int column = 0; column < Columns; column++)
            {
                if (ChannelAt(row, column) == channel)
                {
                    sites.Add((row, column));
                }
            }
        }

        return sites;
    }

    /// <summary>The same array seen from a photosite further right and down.</summary>
    /// <param name="rows">Rows moved down.</param>
    /// <param name="columns">Columns moved right.</param>
    public ColourFilterArray Shifted(int rows, int columns)
    {
        if (_letters is null)
        {
            return this;
        }

        string letters = _letters;
        (int height, int width) = (_rows, _columns);
        return new ColourFilterArray(height, width, string.Create(letters.Length, letters, (target, from) =>
        {
            for (int i = 0; i < target.Length; i++)
            {
                target[i] = from[(Inside((i / width) + rows, height) * width) + Inside((i % width) + columns, width)];
            }
        }));
    }

    /// <inheritdoc/>
    public override string ToString() => Name;

    private static bool IsBayer(string letters) => letters is "RGGB" or "BGGR" or "GRBG" or "GBRG";

    private static int Inside(int place, int length) => ((place % length) + length) % length;

    private static SensorChannel ChannelOf(string letters, int rows, int columns, int row, int column)
    {
        switch (letters[(row * columns) + column])
        {
            case 'R':
                return SensorChannel.R;
            case 'B':
                return SensorChannel.B;
            default:
                char beside = Nearest(columns, step => letters[(row * columns) + Inside(column + step, columns)]);
                char above = Nearest(rows, step => letters[(Inside(row + step, rows) * columns) + column]);
                return (beside, above) is ('B', _) or ('G', 'R') ? SensorChannel.G2 : SensorChannel.G1;
        }
    }

    /// <summary>The nearest letter that is not green; G where both ways tell otherwise, or none is there.</summary>
    private static char Nearest(int length, Func<int, char> at)
    {
        for (int step = 1; step < length; step++)
        {
            (char before, char behind) = (at(-step), at(step));
            if (before != 'G' || behind != 'G')
            {
                return before == 'G' ? behind : behind == 'G' || before == behind ? before : 'G';
            }
        }

        return 'G';
    }
}
