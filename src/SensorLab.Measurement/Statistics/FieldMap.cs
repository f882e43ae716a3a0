using System.Numerics;
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
        _meansDn = meansDn;
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

    private static long SumOf(ReadOnlySpan<ushort> values)
    {
        Vector<uint> sums = default;
        int i = 0;
        for (; i <= values.Length - Vector<ushort>.Count; i += Vector<ushort>.Count)
        {
            Vector.Widen(new Vector<ushort>(values[i..]), out Vector<uint> low, out Vector<uint> high);
            sums += low + high;
        }

        long sum = Vector.Sum(sums);
        for (; i < values.Length; i++)
        {
            sum += values[i];
        }

        return sum;
    }

    private static void AddRow(ReadOnlySpan<ushort> values, int cellWidth, Span<long> sums)
    {
        for (int cell = 0; cell < sums.Length; cell++)
        {
            sums[cell] += SumOf(values.Slice(cell * cellWidth, cellWidth));
        }
    }
}
