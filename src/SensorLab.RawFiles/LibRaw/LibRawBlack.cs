namespace SensorLab.RawFiles.LibRaw;

/// <summary>LibRaw's colour data around <c>black</c>: the curve and the black pattern before it. Valid while the decoder is open.</summary>
internal readonly unsafe struct LibRawBlack
{
    private const int PatternStart = 6;

    private readonly uint* _black;

    /// <summary>Looks at the field <c>black</c> of a libraw_colordata_t.</summary>
    /// <param name="black">The field's place.</param>
    public LibRawBlack(uint* black) => _black = black;

    private uint* Pattern => _black - LibRawLayout.BlackPatternWords;

    private ushort* Curve => (ushort*)Pattern - LibRawLayout.CurveEntries;

    /// <summary>The black level of a photosite in DN: common, per channel and pattern together.</summary>
    /// <param name="row">Row from the visible area's top.</param>
    /// <param name="column">Column from the visible area's left.</param>
    /// <param name="colour">The filter's index there, 0 to 3.</param>
    public long At(int row, int column, int colour)
    {
        (int rows, int columns) = PatternSize();
        long pattern = rows == 0 ? 0 : Pattern[PatternStart + ((row % rows) * columns) + (column % columns)];
        return *_black + (long)Pattern[colour] + pattern;
    }

    /// <summary>Rows and columns after which the pattern repeats; 0 where there is none.</summary>
    public (int Rows, int Columns) PatternSize()
    {
        uint rows = Pattern[4];
        uint columns = Pattern[5];
        bool isThere = rows > 0 && columns > 0 && (ulong)rows * columns <= LibRawLayout.BlackPatternWords - PatternStart;
        return isThere ? ((int)rows, (int)columns) : (0, 0);
    }

    /// <summary>Whether the curve changes no code.</summary>
    public bool CurveIsIdentity()
    {
        for (int i = 0; i < LibRawLayout.CurveEntries; i++)
        {
            if (Curve[i] != i)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Whether the curve's steps grow with the signal, as a maker's companding curve does.</summary>
    public bool CurveIsCompanding() => CurveSteps.Grow(new ReadOnlySpan<ushort>(Curve, LibRawLayout.CurveEntries));
}
