using SensorLab.Frames;

namespace SensorLab.Debrief;

/// <summary>A frame as cells of a few photosites, each with its tone by channel: even tones come out of the noise, and points do not pass for tones.</summary>
/// <remarks>
/// A cell's tone is the mean of its photosites without the highest and the lowest of each channel: a single hot pixel, or one that
/// light strikes, does not move it. Pixels are read once, a few rows at a time.
/// </remarks>
internal sealed class FrameCells
{
    /// <summary>Photosites a side of the smallest cell.</summary>
    private const int SmallestSide = 8;

    /// <summary>Photosites a side of the largest.</summary>
    private const int LargestSide = 32;

    /// <summary>SNR of a cell's tone from which the noise of cells moves the brightest thousandth by less than 0.015 EV.</summary>
    private const double SteadySnr = 309;

    /// <summary>Cells that a thousandth of a frame holds at the least, where frames are large enough.</summary>
    private const int CellsInThousandth = 4;

    private const double Thousandth = 0.001;

    private FrameCells(int columns, int rows, int side, int channels)
    {
        Columns = columns;
        Rows = rows;
        Side = side;
        SignalsDn = [.. Enumerable.Range(0, channels).Select(_ => new float[columns * rows])];
        ClippedShares = [.. Enumerable.Range(0, channels).Select(_ => new float[columns * rows])];
        Clipped = new long[channels];
        Photosites = new long[channels];
    }

    /// <summary>Cells a row.</summary>
    public int Columns { get; }

    /// <summary>Rows of cells.</summary>
    public int Rows { get; }

    /// <summary>Photosites a side of a cell.</summary>
    public int Side { get; }

    /// <summary>Cells in all.</summary>
    public int Count => Columns * Rows;

    /// <summary>Mean signal above black in DN, by channel in the gauge's order and by cell.</summary>
    public float[][] SignalsDn { get; }

    /// <summary>Share of clipped photosites, alike.</summary>
    public float[][] ClippedShares { get; }

    /// <summary>Clipped photosites of each channel, in the whole active area.</summary>
    public long[] Clipped { get; }

    /// <summary>Photosites of each channel, in the whole active area.</summary>
    public long[] Photosites { get; }

    /// <summary>Reads a frame.</summary>
    /// <param name="reader">The frame, at its first row.</param>
    /// <param name="gauge">The gauge of its ISO, with all of its channels.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="MalformedFileException">The file's data are damaged.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static FrameCells Read(IMosaicReader reader, IsoGauge gauge, CancellationToken cancellation)
    {
        MosaicLayout layout = reader.Frame.Layout;
        PixelRectangle active = layout.ActiveArea;
        int side = SideOf(active, gauge, layout.ColourFilterArray);
        var cells = new FrameCells(active.Width / side, active.Height / side, side, gauge.Clips.Count);
        var row = new CellRow(cells, layout.ColourFilterArray, gauge);
        using var rows = new RowBuffer(reader);
        for (int y = -active.Y; y < active.Height; y++)
        {
            ReadOnlySpan<ushort> values = rows.Next();
            if (y >= 0)
            {
                cancellation.ThrowIfCancellationRequested();
                row.Add(y, values.Slice(active.X, active.Width));
            }
        }

        return cells;
    }

    /// <summary>Whole repeats of the filters, so that every cell holds as many photosites of a channel.</summary>
    private static int SideOf(PixelRectangle active, IsoGauge gauge, ColourFilterArray filters)
    {
        int repeat = filters.Rows;
        while (repeat % filters.Columns != 0)
        {
            repeat += filters.Rows;
        }

        double rarest = filters.Channels.Min(channel => filters.SitesOf(channel).Count) / (double)(filters.Rows * filters.Columns);
        int most = (int)Math.Sqrt(Thousandth * active.Area / CellsInThousandth);
        int side = (SmallestSide + repeat - 1) / repeat * repeat;
        while (side < LargestSide && 2 * side <= most && gauge.SnrAtClip * side * Math.Sqrt(rarest) < SteadySnr)
        {
            side *= 2;
        }

        return Math.Max(repeat, Math.Min(side, Math.Min(active.Width, active.Height) / repeat * repeat));
    }
}
