using SensorLab.Simulation.Draws;

namespace SensorLab.Simulation.Flaws;

/// <summary>The field shows structure of a few photosites, the same in all frames.</summary>
internal sealed class TargetTextured : IFlaw
{
    private const int GrainPixels = 6;

    public string Code => "target-textured";

    public string Meaning => "standard deviation of what the field shows";

    public FlawSize Size => FlawSize.Relative(0.02, 0.2);

    public void ChangePlan(FlawScene scene)
    {
        float[] texture = Draw(scene);
        scene.Change(
            frame => frame.Exposure.LightElectron > 0,
            frame => frame with { Exposure = frame.Exposure with { Texture = texture } });
    }

    // Random grey on a coarse grid, bent smoothly between its points, brought to mean 1 and the deviation asked for.
    private static float[] Draw(FlawScene scene)
    {
        int width = scene.Body.WidthPixels;
        int height = scene.Body.HeightPixels;
        int columns = (width / GrainPixels) + 2;
        var grid = new double[columns * ((height / GrainPixels) + 2)];
        var stream = new RandomStream(scene.Seed, 1);
        for (int i = 0; i < grid.Length; i++)
        {
            grid[i] = Math.Clamp(Normal.Next(ref stream), -3, 3);
        }

        var shown = new double[width * height];
        for (int i = 0; i < shown.Length; i++)
        {
            shown[i] = Between(grid, columns, (i % width) / (double)GrainPixels, (i / width) / (double)GrainPixels);
        }

        double mean = shown.Average();
        double deviation = Math.Sqrt(shown.Average(value => (value - mean) * (value - mean)));
        double scale = deviation > 0 ? scene.Size / deviation : 0;
        return [.. shown.Select(value => (float)Math.Max(0, 1 + (scale * (value - mean))))];
    }

    private static double Between(double[] grid, int columns, double x, double y)
    {
        int left = (int)x;
        int top = (int)y;
        double u = Smooth(x - left);
        double v = Smooth(y - top);
        int at = (top * columns) + left;
        double upper = grid[at] + (u * (grid[at + 1] - grid[at]));
        double lower = grid[at + columns] + (u * (grid[at + columns + 1] - grid[at + columns]));
        return upper + (v * (lower - upper));
    }

    private static double Smooth(double t) => t * t * (3 - (2 * t));
}
