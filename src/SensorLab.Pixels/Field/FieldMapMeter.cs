using System.Numerics;
using SensorLab.Frames;

namespace SensorLab.Pixels.Field;

/// <summary>Draws a field map while a frame's rows go by.</summary>
internal sealed class FieldMapMeter
{
    private const int MostColumns = 48;
    private const int MostRows = 32;
    private const int SmallestCell = 8;

    private readonly int _columns;
    private readonly int _rows;
    private readonly int _cellWidth;
    private readonly int _cellHeight;
    private readonly int _repeatRows;
    private readonly int _repeat;
    private readonly int _stride;
    private readonly long[] _sums;

    /// <summary>Starts a map.</summary>
    /// <param name="activeArea">The active area, whose size counts.</param>
    /// <param name="array">The filters: cells hold whole repeats of them, so that all mix the colours alike.</param>
    /// <param name="rowPairsACell">Pairs of rows that a cell needs; of more only some are looked at.</param>
    public FieldMapMeter(PixelRectangle activeArea, ColourFilterArray array, int rowPairsACell = int.MaxValue)
    {
        _repeatRows = Math.Max(2, array.Rows);
        int repeatColumns = Math.Max(2, array.Columns);
        _repeat = Math.Max(_repeatRows, repeatColumns);
        (_columns, _cellWidth) = Cells(activeArea.Width, repeatColumns, MostColumns);
        (_rows, _cellHeight) = Cells(activeArea.Height, _repeatRows, MostRows);
        _stride = Math.Max(1, _cellHeight / _repeatRows / Math.Max(1, rowPairsACell / (_repeatRows / 2)));
        _sums = new long[_columns * _rows];
    }

    /// <summary>Cells of whole repeats along a side, as many as may be: less than one of them is left out.</summary>
    private static (int Count, int Photosites) Cells(int side, int repeat, int most)
    {
        int repeats = side / repeat;
        int count = Math.Clamp(side / SmallestCell, 1, most);
        int each = repeats / count;
        each += repeats - (each * count) >= each ? 1 : 0;
        return (Math.Max(1, repeats / each), Math.Min(each, repeats) * repeat);
    }

    /// <summary>Rows of the active area that the map covers: the last few of a side are left out.</summary>
    public int RowsCovered => _rows * _cellHeight;

    /// <summary>Adds a row of the active area.</summary>
    public void AddRow(int row, ReadOnlySpan<ushort> activeRow)
    {
        if (row >= RowsCovered || row % _cellHeight / _repeatRows % _stride != 0)
        {
            return;
        }

        Span<long> sums = _sums.AsSpan(row / _cellHeight * _columns, _columns);
        for (int cell = 0; cell < sums.Length; cell++)
        {
            sums[cell] += SumOf(activeRow.Slice(cell * _cellWidth, _cellWidth));
        }
    }

    /// <summary>The map of all rows that were added.</summary>
    public FieldMap ToMap()
    {
        int repeats = ((_cellHeight / _repeatRows) + _stride - 1) / _stride;
        double pixels = (double)_repeatRows * repeats * _cellWidth;
        return new FieldMap(_columns, _rows, (_cellWidth, _cellHeight), Array.ConvertAll(_sums, sum => sum / pixels)) { Repeat = _repeat };
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
}
