using SensorLab.Frames;

namespace SensorLab.Imaging;

/// <summary>A frame binned over all channels, black taken off.</summary>
/// <param name="Width">Cells a row.</param>
/// <param name="Height">Cells a column.</param>
/// <param name="Photosites">Photosites a side of a cell: whole cells of the colour filter array.</param>
/// <param name="SignalsDn">Mean signal of each cell in DN, row by row.</param>
internal sealed record BinnedFrame(int Width, int Height, int Photosites, double[] SignalsDn)
{
    /// <summary>Bins a frame.</summary>
    /// <param name="reader">The frame, at its first row.</param>
    /// <param name="longestSide">Cells of the longest side at the most.</param>
    /// <param name="cancellation">Stops the reading.</param>
    public static BinnedFrame Of(IMosaicReader reader, int longestSide, CancellationToken cancellation)
    {
        MosaicLayout layout = reader.Frame.Layout;
        PixelRectangle active = layout.ActiveArea;
        ColourFilterArray filters = layout.ColourFilterArray;
        int repeat = 2 * filters.Rows * filters.Columns;
        repeat = Enumerable.Range(1, repeat).First(side => side % 2 == 0 && side % filters.Rows == 0 && side % filters.Columns == 0);
        int repeats = (Math.Max(active.Width, active.Height) + (repeat * longestSide) - 1) / (repeat * longestSide);
        int side = repeat * repeats;
        int width = Math.Max(1, active.Width / side);
        int height = Math.Max(1, active.Height / side);
        double[] sums = new double[width * height];
        ushort[] row = new ushort[layout.WidthPixels];
        for (int y = -active.Y; y < Math.Min(active.Height, height * side); y++)
        {
            cancellation.ThrowIfCancellationRequested();
            reader.ReadRows(row);
            if (y >= 0)
            {
                AddRow(row.AsSpan(active.X, Math.Min(active.Width, width * side)), side, sums.AsSpan(y / side * width, width));
            }
        }

        double black = reader.Frame.Declared.BlackDn.Values.DefaultIfEmpty(0).Average();
        double sites = (double)side * side;
        return new BinnedFrame(width, height, side, Array.ConvertAll(sums, sum => (sum / sites) - black));
    }

    private static void AddRow(ReadOnlySpan<ushort> values, int side, Span<double> sums)
    {
        for (int i = 0; i < values.Length; i++)
        {
            sums[i / side] += values[i];
        }
    }
}
