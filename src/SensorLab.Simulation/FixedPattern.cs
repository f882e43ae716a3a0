using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Draws;

namespace SensorLab.Simulation;

/// <summary>What distinguishes the photosites of one body from each other: drawn once from its seed, the same in all its frames.</summary>
internal sealed class FixedPattern
{
    private const ulong ResponseStream = 0x5052_4E55;
    private const ulong OffsetStream = 0x4453_4E55;
    private const ulong LineStream = 0x4C49_4E45;

    private FixedPattern(float[] response, float[] offsetElectron)
    {
        Response = response;
        OffsetElectron = offsetElectron;
    }

    /// <summary>Relative response of each stored photosite (rows × columns), mean 1.</summary>
    public float[] Response { get; }

    /// <summary>Offset of each stored photosite in e⁻ (rows × columns), mean 0.</summary>
    public float[] OffsetElectron { get; }

    /// <summary>Draws the pattern of a body.</summary>
    public static FixedPattern Of(VirtualBody body, MosaicLayout layout)
    {
        const double percent = 0.01;
        var lines = new RandomStream(body.PatternSeed, LineStream);
        double[] rowResponse = Draw(ref lines, layout.HeightPixels, body.PrnuRowPercent * percent);
        double[] columnResponse = Draw(ref lines, layout.WidthPixels, body.PrnuColumnPercent * percent);
        double[] rowOffset = Draw(ref lines, layout.HeightPixels, body.DsnuRowElectron);
        double[] columnOffset = Draw(ref lines, layout.WidthPixels, body.DsnuColumnElectron);
        float[] response = Sum(body.PatternSeed, ResponseStream, body.PrnuPercent * percent, 1, rowResponse, columnResponse);
        float[] offset = Sum(body.PatternSeed, OffsetStream, body.DsnuElectron, 0, rowOffset, columnOffset);
        return new FixedPattern(response, offset);
    }

    private static double[] Draw(ref RandomStream stream, int length, double deviation)
    {
        var values = new double[length];
        for (int i = 0; i < length; i++)
        {
            values[i] = deviation * Normal.Next(ref stream);
        }

        return values;
    }

    private static float[] Sum(ulong seed, ulong number, double deviation, double mean, double[] rows, double[] columns)
    {
        var stream = new RandomStream(seed, number);
        var map = new float[rows.Length * columns.Length];
        int i = 0;
        foreach (double row in rows)
        {
            foreach (double column in columns)
            {
                map[i++] = (float)(mean + row + column + (deviation * Normal.Next(ref stream)));
            }
        }

        return map;
    }
}
