namespace SensorLab.Frames;

/// <summary>The 2×2 order of colour filters, named from the top left photosite of the active area.</summary>
/// <remarks>DNG 1.7, tags CFARepeatPatternDim and CFAPattern, for the Bayer orders; monochrome sensors have none.</remarks>
public readonly record struct ColourFilterArray
{
    /// <summary>The name of an array without filters.</summary>
    public const string MonochromeName = "monochrome";

    private static readonly SensorChannel[] MonochromeChannels = [SensorChannel.Y];
    private static readonly SensorChannel[] BayerChannels = [SensorChannel.R, SensorChannel.G1, SensorChannel.G2, SensorChannel.B];

    private readonly string? _letters;

    private ColourFilterArray(string? letters) => _letters = letters;

    /// <summary>No filters: every photosite is channel Y.</summary>
    public static ColourFilterArray Monochrome => default;

    /// <summary>Red top left.</summary>
    public static ColourFilterArray Rggb => new("RGGB");

    /// <summary>Blue top left.</summary>
    public static ColourFilterArray Bggr => new("BGGR");

    /// <summary>Green top left beside red.</summary>
    public static ColourFilterArray Grbg => new("GRBG");

    /// <summary>Green top left beside blue.</summary>
    public static ColourFilterArray Gbrg => new("GBRG");

    /// <summary>Whether the sensor has no filters.</summary>
    public bool IsMonochrome => _letters is null;

    /// <summary>The four letters in reading order, or <see cref="MonochromeName"/>.</summary>
    public string Name => _letters ?? MonochromeName;

    /// <summary>Photosites from one site of a channel to the next, in both directions: 2, or 1 without filters.</summary>
    public int Period => IsMonochrome ? 1 : 2;

    /// <summary>The channels in the order in which profiles list them.</summary>
    public IReadOnlyList<SensorChannel> Channels => IsMonochrome ? MonochromeChannels : BayerChannels;

    /// <summary>The array of that name.</summary>
    /// <param name="name">RGGB, BGGR, GRBG, GBRG or monochrome.</param>
    /// <returns>The array, or null where the name is none of these.</returns>
    public static ColourFilterArray? FromName(string name) => name switch
    {
        "RGGB" => Rggb,
        "BGGR" => Bggr,
        "GRBG" => Grbg,
        "GBRG" => Gbrg,
        MonochromeName => Monochrome,
        _ => null,
    };

    /// <summary>The channel of a photosite.</summary>
    /// <param name="row">Row from the active area's top; may be negative in a margin.</param>
    /// <param name="column">Column from the active area's left; may be negative in a margin.</param>
    public SensorChannel ChannelAt(int row, int column)
    {
        if (_letters is null)
        {
            return SensorChannel.Y;
        }

        int bottom = row & 1;
        char letter = _letters[(2 * bottom) + (column & 1)];
        return letter switch
        {
            'R' => SensorChannel.R,
            'B' => SensorChannel.B,
            _ => _letters.IndexOf('R', StringComparison.Ordinal) / 2 == bottom ? SensorChannel.G1 : SensorChannel.G2,
        };
    }

    /// <summary>The first photosite of a channel.</summary>
    /// <param name="channel">A channel of this array.</param>
    /// <returns>Row and column from the active area's top left, each 0 or 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The array has no such channel.</exception>
    public (int Row, int Column) FirstSiteOf(SensorChannel channel)
    {
        for (int row = 0; row < Period; row++)
        {
            for (int column = 0; column < Period; column++)
            {
                if (ChannelAt(row, column) == channel)
                {
                    return (row, column);
                }
            }
        }

        throw new ArgumentOutOfRangeException(nameof(channel), channel, $"A {Name} array has no such channel.");
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
        return new ColourFilterArray(string.Create(4, (letters, rows, columns), static (target, from) =>
        {
            for (int i = 0; i < 4; i++)
            {
                int row = ((i / 2) + from.rows) & 1;
                int column = ((i % 2) + from.columns) & 1;
                target[i] = from.letters[(2 * row) + column];
            }
        }));
    }

    /// <inheritdoc/>
    public override string ToString() => Name;
}
