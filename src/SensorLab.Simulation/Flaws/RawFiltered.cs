using SensorLab.Frames;

namespace SensorLab.Simulation.Flaws;

/// <summary>The body smooths its raw data: each photosite takes some of its four nearest neighbours of the same colour.</summary>
internal sealed class RawFiltered : IFlaw
{
    private const int Neighbours = 4;

    public string Code => "raw-filtered";

    public string Meaning => "weight of the neighbours' mean";

    public FlawSize Size => FlawSize.Relative(0.3, 1);

    public void ChangePlan(FlawScene scene)
    {
        double weight = scene.Size;
        scene.Change(_ => true, frame => frame.WithEffect((codes, layout) => Smooth(codes, layout, weight)));
    }

    private static void Smooth(Span<ushort> codes, MosaicLayout layout, double weight)
    {
        ushort[] before = codes.ToArray();
        int width = layout.WidthPixels;
        ColourFilterArray filters = layout.ColourFilterArray;
        (int Y, int X)[][] nearest = [.. Enumerable.Range(0, filters.Rows * filters.Columns).Select(place => Nearest(filters, place / filters.Columns, place % filters.Columns))];
        PixelRectangle active = layout.ActiveArea;
        for (int y = 0; y < active.Height; y++)
        {
            for (int x = 0; x < active.Width; x++)
            {
                int at = ((active.Y + y) * width) + active.X + x;
                double around = 0;
                foreach ((int down, int right) in nearest[(y % filters.Rows * filters.Columns) + (x % filters.Columns)])
                {
                    bool isInside = y + down >= 0 && y + down < active.Height && x + right >= 0 && x + right < active.Width;
                    around += before[isInside ? at + (down * width) + right : at] / (double)Neighbours;
                }

                codes[at] = (ushort)Math.Floor(before[at] + (weight * (around - before[at])) + 0.5);
            }
        }
    }

    private static (int Down, int Right)[] Nearest(ColourFilterArray filters, int row, int column) =>
    [
        .. Enumerable.Range(-filters.Rows, (2 * filters.Rows) + 1)
            .SelectMany(down => Enumerable.Range(-filters.Columns, (2 * filters.Columns) + 1).Select(right => (Down: down, Right: right)))
            .Where(step => step != (0, 0) && filters.ChannelAt(row + step.Down, column + step.Right) == filters.ChannelAt(row, column))
            .OrderBy(step => (step.Down * step.Down) + (step.Right * step.Right))
            .Take(Neighbours),
    ];
}
