using SensorLab.Frames;

namespace SensorLab.Measurement.Statistics;

/// <summary>How brightly each part of the frame is lit: means over cells, a coarse picture of one frame.</summary>
public sealed class FieldMap
{
    private const int MostColumns = 48;
    private const int MostRows = 32;
    private const int SmallestCell = 8;

    private readonly double[] _meansDn;

    private FieldMap(int columns, int rows, int cellWidth, int cellHeight, double[] meansDn)
    {
        Columns = columns;
        Rows = rows;
        CellWidth = cellWidth;
        CellHeight = cellHeight;
        _meansDn = CellOutliers.Replaced(meansDn, columns);
    }

    /// <summary>Cells a row.</summary>
    public int Columns { get; }

    /// <summary>Cells a column.</summary>
    public int Rows { get; }

    /// <summary>Photosites a row of a cell.</summary>
    public int CellWidth { get; }

    /// <summary>Photosites a column of a cell.</summary>
    public int CellHeight { get; }

    /// <summary>Mean over all cells in DN.</summary>
    public double MeanDn => _meansDn.Average();

    /// <summary>Mean of a cell over all channels in DN.</summary>
    /// <param name="row">Row of the cell.</param>
    /// <param name="column">Column of the cell.</param>
    public double this[int row, int column] => _meansDn[(row * Columns) + column];

    /// <summary>What the darkest cell lacks to the brightest one.</summary>
    /// <param name="blackDn">Black level in DN, below the darkest cell.</param>
    /// <returns>The share of the brightest cell's signal, from 0 to 1.</returns>
    public double MissingShare(double blackDn) => 1 - Math.Clamp((_meansDn.Min() - blackDn) / (_meansDn.Max() - blackDn), 0, 1);

    /// <summary>Draws the map of a frame.</summary>
    /// <param name="reader">The frame, at its first row; it is read to the end of its active area.</param>
    /// <returns>The map; cells are whole cells of the colour filter array, the last few photosites of a side are left out.</returns>
    /// <exception cref="MalformedFileException">The frame's data are damaged.</exception>
    public static FieldMap Of(IMosaicReader reader)
    {
        PixelRectangle active = reader.Frame.Layout.ActiveArea;
        int columns = Math.Clamp(active.Width / SmallestCell, 1, MostColumns);
        int rows = Math.Clamp(active.Height / SmallestCell, 1, MostRows);
        int cellWidth = active.Width / columns / 2 * 2;
        int cellHeight = active.Height / rows / 2 * 2;
        long[] sums = new long[columns * rows];
        ushort[] row = new ushort[reader.Frame.Layout.WidthPixels];
        for (int y = -active.Y; y < rows * cellHeight; y++)
        {
            reader.ReadRows(row);
            if (y >= 0)
            {
                AddRow(row.AsSpan(active.X, columns * cellWidth), cellWidth, sums.AsSpan(y / cellHeight * columns, columns));
            }
        }

        double pixels = (double)cellWidth * cellHeight;
        return new FieldMap(columns, rows, cellWidth, cellHeight, Array.ConvertAll(sums, sum => sum / pixels));
    }

    private static void AddRow(ReadOnlySpan<ushort> values, int cellWidth, Span<long> sums)
    {
        for (int cell = 0; cell < sums.Length; cell++)
        {
            long sum = 0;
            foreach (ushort value in values.Slice(cell * cellWidth, cellWidth))
            {
                sum += value;
            }

            sums[cell] += sum;
        }
    }
}
