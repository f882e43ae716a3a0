using SensorLab.Frames;

namespace SensorLab.Simulation.Flaws;

/// <summary>The body smooths its raw data: each photosite takes some of its four nearest neighbours of the same colour.</summary>
internal sealed class RawFiltered : IFlaw
{
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
        int step = layout.ColourFilterArray.Period;
        PixelRectangle active = layout.ActiveArea;
        for (int y = active.Y; y < active.Bottom; y++)
        {
            int above = (y - step >= active.Y ? y - step : y) * width;
            int below = (y + step < active.Bottom ? y + step : y) * width;
            for (int x = active.X; x < active.Right; x++)
            {
                int at = (y * width) + x;
                int left = x - step >= active.X ? at - step : at;
                int right = x + step < active.Right ? at + step : at;
                double around = 0.25 * (before[above + x] + before[below + x] + before[left] + before[right]);
                codes[at] = (ushort)Math.Floor(before[at] + (weight * (around - before[at])) + 0.5);
            }
        }
    }
}
