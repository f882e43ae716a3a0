using SensorLab.Frames;
using SensorLab.RawFiles.Tiff;

namespace SensorLab.RawFiles.Dng;

/// <summary>Reads the levels that a DNG declares.</summary>
/// <remarks>DNG 1.7, chapter 4: BlackLevelRepeatDim, BlackLevel, BlackLevelDeltaH, BlackLevelDeltaV, WhiteLevel; all start at the active area's top left.</remarks>
internal static class DngLevels
{
    private const int LongestPatternSide = 256;

    /// <summary>The declared levels.</summary>
    /// <param name="raw">The raw image's directory.</param>
    /// <param name="layout">The mosaic's geometry.</param>
    /// <exception cref="MalformedFileException">A pattern of another size than it claims, or a level that is not a number.</exception>
    public static DeclaredLevels Read(TiffDirectory raw, MosaicLayout layout)
    {
        double[] white = raw.Numbers(TiffTag.WhiteLevel, 1);
        return new DeclaredLevels
        {
            BlackDn = BlackOf(raw, layout),
            WhiteDn = white.Length == 0 ? null : RequireNumber(white[0]),
        };
    }

    private static Dictionary<SensorChannel, double> BlackOf(TiffDirectory raw, MosaicLayout layout)
    {
        var black = new Dictionary<SensorChannel, double>();
        if (!raw.Has(TiffTag.BlackLevel) && !raw.Has(TiffTag.BlackLevelDeltaH) && !raw.Has(TiffTag.BlackLevelDeltaV))
        {
            return black;
        }

        (int rows, int columns) = PatternSizeOf(raw);
        double[] pattern = Exactly(raw, TiffTag.BlackLevel, rows * columns);
        double[] byColumn = Exactly(raw, TiffTag.BlackLevelDeltaH, layout.ActiveArea.Width);
        double[] byRow = Exactly(raw, TiffTag.BlackLevelDeltaV, layout.ActiveArea.Height);
        foreach (SensorChannel channel in layout.ColourFilterArray.Channels)
        {
            ColourFilterArray filters = layout.ColourFilterArray;
            black[channel] = filters.SitesOf(channel).Average(site => PatternMean(pattern, rows, columns, site, filters)
                + EveryMean(byRow, site.Row, filters.Rows) + EveryMean(byColumn, site.Column, filters.Columns));
        }

        return black;
    }

    private static (int Rows, int Columns) PatternSizeOf(TiffDirectory raw)
    {
        if (!raw.Has(TiffTag.BlackLevelRepeatDim))
        {
            return (1, 1);
        }

        return raw.Integers(TiffTag.BlackLevelRepeatDim, 2) is [var rows and > 0 and <= LongestPatternSide, var columns and > 0 and <= LongestPatternSide]
            ? ((int)rows, (int)columns)
            : throw new MalformedFileException("The black level's pattern has no sensible size.");
    }

    private static double[] Exactly(TiffDirectory raw, ushort tag, int count)
    {
        double[] values = raw.Numbers(tag, count);
        if (values.Length != count && raw.Has(tag))
        {
            throw new MalformedFileException($"Tag {tag} holds {values.Length} values where {count} are due.");
        }

        return Array.ConvertAll(values, RequireNumber);
    }

    private static double RequireNumber(double value) => double.IsFinite(value)
        ? value
        : throw new MalformedFileException("A declared level is not a number.");

    /// <summary>The pattern's mean over one channel, whose sites may pass through several places of the pattern.</summary>
    private static double PatternMean(double[] pattern, int rows, int columns, (int Row, int Column) first, ColourFilterArray filters)
    {
        if (pattern.Length == 0)
        {
            return 0;
        }

        double sum = 0;
        for (int i = 0; i < rows; i++)
        {
            int row = (first.Row + (i * filters.Rows)) % rows;
            for (int j = 0; j < columns; j++)
            {
                sum += pattern[(row * columns) + ((first.Column + (j * filters.Columns)) % columns)];
            }
        }

        return sum / pattern.Length;
    }

    private static double EveryMean(double[] deltas, int first, int period)
    {
        double sum = 0;
        int count = 0;
        for (int i = first; i < deltas.Length; i += period)
        {
            sum += deltas[i];
            count++;
        }

        return count == 0 ? 0 : sum / count;
    }
}
