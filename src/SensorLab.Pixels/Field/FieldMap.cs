using SensorLab.Frames;

namespace SensorLab.Pixels.Field;

/// <summary>How brightly each part of the frame is lit: means over cells, a coarse picture of one frame.</summary>
public sealed class FieldMap
{
    /// <summary>Standard deviation over median magnitude of a normal variate, over the spread √1.5 of a second difference.</summary>
    private const double DeviationOverMedian = 1.4826 / 1.224744871391589;

    private readonly double[] _meansDn;

    internal FieldMap(int columns, int rows, (int Width, int Height) cell, double[] meansDn)
    {
        Columns = columns;
        Rows = rows;
        CellWidth = cell.Width;
        CellHeight = cell.Height;
        _meansDn = CellOutliers.Replaced(meansDn, columns);
        NoiseDn = Noise();
    }

    private FieldMap(BinaryReader from)
    {
        (Columns, Rows) = (from.ReadInt32(), from.ReadInt32());
        (CellWidth, CellHeight, Repeat) = (from.ReadInt32(), from.ReadInt32(), from.ReadInt32());
        _meansDn = from.ReadAll(from.ReadDouble);
        NoiseDn = from.ReadDouble();
    }

    /// <summary>Cells a row.</summary>
    public int Columns { get; }

    /// <summary>Cells a column.</summary>
    public int Rows { get; }

    /// <summary>Photosites a row of a cell.</summary>
    public int CellWidth { get; }

    /// <summary>Photosites a column of a cell.</summary>
    public int CellHeight { get; }

    /// <summary>Photosites after which the colour filters repeat in both directions; 2 without filters.</summary>
    internal int Repeat { get; init; } = 2;

    /// <summary>Mean over all cells in DN.</summary>
    public double MeanDn => _meansDn.Average();

    /// <summary>Standard deviation of a cell's mean about its neighbours' course, in DN: noise, which shading and an edge do not reach.</summary>
    public double NoiseDn { get; }

    /// <summary>Standard deviation in DN of what all cells of a row share beside their own noise: the rows' noise, which shading does not reach.</summary>
    internal double RowNoiseDn
    {
        get
        {
            double[] means = [.. Enumerable.Range(0, Rows).Select(row => Enumerable.Range(0, Columns).Average(column => this[row, column]))];
            double own = NoiseAbout(Enumerable.Range(1, Math.Max(0, Rows - 2)).Select(row => means[row] - ((means[row - 1] + means[row + 1]) / 2)));
            return Math.Sqrt(Math.Max(0, (own * own) - (NoiseDn * NoiseDn / Columns)));
        }
    }

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
        var meter = new FieldMapMeter(active, reader.Frame.Layout.ColourFilterArray);
        ushort[] row = new ushort[reader.Frame.Layout.WidthPixels];
        for (int y = -active.Y; y < meter.RowsCovered; y++)
        {
            reader.ReadRows(row);
            if (y >= 0)
            {
                meter.AddRow(y, row.AsSpan(active.X, active.Width));
            }
        }

        return meter.ToMap();
    }

    /// <summary>Writes the map as bytes.</summary>
    internal void Write(BinaryWriter to)
    {
        foreach (int number in (int[])[Columns, Rows, CellWidth, CellHeight, Repeat])
        {
            to.Write(number);
        }

        to.WriteAll(_meansDn, to.Write);
        to.Write(NoiseDn);
    }

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    internal static FieldMap Read(BinaryReader from) => new(from);

    private double Noise() => NoiseAbout(Enumerable.Range(0, Rows).SelectMany(row => Enumerable.Range(1, Math.Max(0, Columns - 2))
        .Select(column => this[row, column] - ((this[row, column - 1] + this[row, column + 1]) / 2))));

    /// <summary>Standard deviation of values of which second differences are given; 0 where there are none.</summary>
    private static double NoiseAbout(IEnumerable<double> differences)
    {
        double[] magnitudes = [.. differences.Select(Math.Abs).Order()];
        return magnitudes.Length == 0 ? 0 : magnitudes[magnitudes.Length / 2] * DeviationOverMedian;
    }
}
