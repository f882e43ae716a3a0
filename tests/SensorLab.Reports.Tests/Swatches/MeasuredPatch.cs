using SkiaSharp;

namespace SensorLab.Reports.Tests.Swatches;

/// <summary>A patch measured back from its written picture, in light over white's.</summary>
internal sealed class MeasuredPatch
{
    private readonly double[,] _light;

    private MeasuredPatch(double[,] light)
    {
        _light = light;
        Mean = light.Cast<double>().Average();
        Deviation = Math.Sqrt(light.Cast<double>().Average(v => (v - Mean) * (v - Mean)));
    }

    public double Mean { get; }

    public double Deviation { get; }

    /// <summary>Standard deviation of the rows' means over the mean, what their pixels' own noise leaves taken off.</summary>
    public double Rows => Lines(Rank(0), Rank(1), (row, i) => _light[row, i]);

    /// <summary>The same of columns.</summary>
    public double Columns => Lines(Rank(1), Rank(0), (column, i) => _light[i, column]);

    public double Horizontal => Together(0, 1);

    public double Vertical => Together(1, 0);

    public static MeasuredPatch OfPng(byte[] png)
    {
        using SKBitmap picture = SKBitmap.Decode(png);
        var light = new double[picture.Height, picture.Width];
        for (int y = 0; y < picture.Height; y++)
        {
            for (int x = 0; x < picture.Width; x++)
            {
                SKColor colour = picture.GetPixel(x, y);
                Assert.Equal((colour.Red, colour.Red), (colour.Green, colour.Blue));
                light[y, x] = Light(colour.Red);
            }
        }

        return new MeasuredPatch(light);
    }

    // IEC 61966-2-1, clause 5.2, backwards.
    private static double Light(byte code)
    {
        double value = code / 255.0;
        return value > 0.04045 ? Math.Pow((value + 0.055) / 1.055, 2.4) : value / 12.92;
    }

    private int Rank(int dimension) => _light.GetLength(dimension);

    private double Lines(int lines, int length, Func<int, int, double> at)
    {
        double[] means = [.. Enumerable.Range(0, lines).Select(line => Enumerable.Range(0, length).Average(i => at(line, i)))];
        double between = means.Average(m => (m - Mean) * (m - Mean));
        return Math.Sqrt(Math.Max(0, between - (Deviation * Deviation / length))) / Mean;
    }

    private double Together(int down, int across)
    {
        double sum = 0;
        int pairs = 0;
        for (int y = 0; y < Rank(0) - down; y++)
        {
            for (int x = 0; x < Rank(1) - across; x++)
            {
                sum += (_light[y, x] - Mean) * (_light[y + down, x + across] - Mean);
                pairs++;
            }
        }

        return sum / pairs / (Deviation * Deviation);
    }
}
