namespace SensorLab.Reports.Swatches;

/// <summary>The noise of a patch before it is written: normal deviates of pixels, rows and columns, over the tone's mean.</summary>
internal static class SwatchField
{
    /// <summary>The field.</summary>
    /// <param name="tone">The tone.</param>
    /// <param name="model">The swatch, for what neighbours share.</param>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    /// <param name="seed">Which of all equally likely fields.</param>
    /// <returns>The pixels' part, and that of rows and columns; row by row.</returns>
    public static (double[] Pixels, double[] Lines) Of(SwatchTone tone, SwatchModel model, int width, int height, int seed)
    {
        var random = new Normal(seed);
        double[] columns = [.. Enumerable.Range(0, width).Select(_ => tone.ColumnNoise * random.Next())];
        double[] rows = [.. Enumerable.Range(0, height).Select(_ => tone.RowNoise * random.Next())];

        // Every pixel is a mixture of itself and the next: neighbours share, those beyond do not.
        (double own, double next) across = Mixture(model.Horizontal);
        (double own, double next) down = Mixture(model.Vertical);
        double[] white = [.. Enumerable.Range(0, (width + 1) * (height + 1)).Select(_ => random.Next())];
        var pixels = new double[width * height];
        var lines = new double[width * height];
        for (int y = 0; y < height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                int at = (y * (width + 1)) + x;
                double shared = (down.own * ((across.own * white[at]) + (across.next * white[at + 1])))
                    + (down.next * ((across.own * white[at + width + 1]) + (across.next * white[at + width + 2])));
                pixels[(y * width) + x] = (tone.SharedPixelNoise * shared) + (tone.FreePixelNoise * random.Next());
                lines[(y * width) + x] = rows[y] + columns[x];
            }
        }

        return (pixels, lines);
    }

    // Weights a and b with a² + b² = 1 and a·b the correlation.
    private static (double Own, double Next) Mixture(double correlation)
    {
        double angle = Math.Asin(2 * correlation) / 2;
        return (Math.Cos(angle), Math.Sin(angle));
    }

    // Box and Muller's normal deviates.
    private sealed class Normal(int seed)
    {
        private readonly Random _random = new(seed);
        private double? _spare;

        public double Next()
        {
            if (_spare is { } spare)
            {
                _spare = null;
                return spare;
            }

            double radius = Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble()));
            (double sine, double cosine) = Math.SinCos(2 * Math.PI * _random.NextDouble());
            _spare = radius * sine;
            return radius * cosine;
        }
    }
}
