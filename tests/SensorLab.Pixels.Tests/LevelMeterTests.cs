using CsCheck;
using SensorLab.Frames;
using SensorLab.Pixels.Planes;
using SensorLab.Pixels.Variances;

namespace SensorLab.Pixels.Tests;

/// <summary>The one pass over pixels against the definitions, written out plainly here.</summary>
public sealed class LevelMeterTests
{
    /// <summary>Relative: double rounding over a few thousand terms.</summary>
    private const double Rounding = 1e-9;

    private static readonly ColourFilterArray[] Arrays =
    [
        ColourFilterArray.Monochrome, ColourFilterArray.Rggb, ColourFilterArray.Gbrg, Patterns.SixBySix, Patterns.Quad, Patterns.Quad.Shifted(1, 3), ColourFilterArray.FromPattern(2, 4, "RGBGGBGR")!.Value,
        ColourFilterArray.FromPattern(1, 3, "RGB")!.Value, ColourFilterArray.FromPattern(5, 5, "RGBGGGRGBGGGRGBBGGRGGBGGR")!.Value, ColourFilterArray.FromPattern(2, 8, "RGRGRGGGGBGBGBGB")!.Value,
    ];

    private static readonly Gen<(int Frames, int Width, int Height, int Array, int Left, int Top, int Seed)> Cases = Gen.Select(
        Gen.Int[2, 4], Gen.Int[80, 127], Gen.Int[60, 127], Gen.Int[0, 9], Gen.Int[0, 7], Gen.Int[0, 7], Gen.Int[0, 1_000_000]);

    /// <summary>Dead lines count from the active area's top left, wherever the region begins: a neighbour stands in for each, and nothing of theirs is left.</summary>
    [Fact]
    public void Measure_DeadLinesInARegion_AreFilledByTheirNeighbours()
    {
        const int width = 48;
        const ushort alive = 1000;
        const ushort dead = 9000;
        const int deadRow = 20;
        const int deadColumn = 30;
        var region = new PixelRectangle(6, 4, 40, 40);
        ushort[] frame = [.. Enumerable.Range(0, width * width).Select(i => i / width == deadRow || i % width == deadColumn ? dead : alive)];

        LevelStatistics kept = MadeUpLevel.Measure([frame, frame], width, ColourFilterArray.Monochrome, FrameRole.Dark, region);
        LevelStatistics filled = MadeUpLevel.Measure([frame, frame], width, ColourFilterArray.Monochrome, FrameRole.Dark, region, deadLines: [new(SensorChannel.Y, true, deadRow, 0, 0), new(SensorChannel.Y, false, deadColumn, 0, 0)]);

        Assert.Equal(dead, kept.Channels[0].Lines!.RowsDn[deadRow - region.Y], Rounding);
        Assert.All(filled.Channels[0].Lines!.RowsDn, mean => Assert.Equal(alive, mean, Rounding));
        Assert.All(filled.Channels[0].Lines!.ColumnsDn, mean => Assert.Equal(alive, mean, Rounding));
    }

    [Fact]
    public void Measure_AnyRegion_GivesTheMeansOfItsPixels() => Cases.Sample(c =>
    {
        (ushort[][] frames, PixelRectangle region, LevelStatistics measured) = Measure(c, FrameRole.Dark);
        foreach (ChannelStatistics channel in measured.Channels)
        {
            double[][][,] planes = [.. frames.Select(f => MadeUpLevel.Planes(f, c.Width, Arrays[c.Array], channel.Channel, region))];
            double[][,] all = [.. planes.SelectMany(p => p)];
            Assert.Equal(all.Average(p => Enumerable.Range(0, p.GetLength(1)).Average(x => p[3, x])), channel.Lines!.RowsDn[3], Rounding);
            Assert.Equal(all.Average(p => Enumerable.Range(0, p.GetLength(0)).Average(y => p[y, 5])), channel.Lines.ColumnsDn[5], Rounding);
            for (int f = 0; f < frames.Length; f++)
            {
                Assert.Equal(planes[f].SelectMany(p => p.Cast<double>()).Average(), channel.FrameMeansDn[f], Rounding);
                Assert.Equal(planes[f].Sum(p => p.Length), channel.Pixels);
            }
        }
    }, iter: 40);

    /// <summary>
    /// Frames of one light: σ² = Σ_frames Σ_pixels (y − ȳ_pixel)² / ((n − 1)·ν), rows' and columns' means of each block taken out,
    /// ν = (rows − 1)(columns − 1) a block.
    /// </summary>
    [Fact]
    public void TemporalVariance_FramesOfOneLight_IsTheSpreadAboutEachPixelsMean() => Cases.Sample(c =>
    {
        // Black above the mean: no signal, hence no scaling.
        (ushort[][] frames, PixelRectangle region, LevelStatistics measured) = Measure(c, blackDn: 1e6);
        foreach (ChannelStatistics channel in measured.Channels)
        {
            double expected = PlaceByPlace(frames, c.Width, Arrays[c.Array], channel.Channel, region).Average(planes =>
            {
                double[,] mean = Combine(planes, (_, values) => values.Average());
                double squares = planes.Sum(p => CentredSquares(Combine([p, mean], (_, v) => v[0] - v[1]), Arrays[c.Array]));
                return squares / ((frames.Length - 1) * Degrees(planes[0], Arrays[c.Array]));
            });
            Assert.Equal(expected, channel.Temporal!.Parts.PixelDn2, Rounding * expected);
        }
    }, iter: 40);

    /// <summary>EMVA 1288's two-image method on frames scaled to a common signal: Var(y₂ − s·y₁)/(1 + s²), s = S₂/S₁.</summary>
    [Fact]
    public void TemporalVariance_TwoFramesOfUnlikeLight_IsThatOfTheScaledDifference() => Cases.Sample(c =>
    {
        const double black = 200;
        (ushort[][] frames, PixelRectangle region, LevelStatistics measured) = Measure(c with { Frames = 2 }, blackDn: black);
        foreach (ChannelStatistics channel in measured.Channels)
        {
            (double Pixel, double Row)[] places = [.. PlaceByPlace(frames, c.Width, Arrays[c.Array], channel.Channel, region).Select(planes =>
            {
                double s = (planes[1].Cast<double>().Average() - black) / (planes[0].Cast<double>().Average() - black);
                double[,] difference = Combine(planes, (_, v) => v[1] - (s * v[0]));
                double pixel = CentredSquares(difference, Arrays[c.Array]) / (1 + (s * s)) / Degrees(planes[0], Arrays[c.Array]);
                double rows = Variance(Enumerable.Range(0, difference.GetLength(0)).Select(y => Enumerable.Range(0, difference.GetLength(1)).Average(x => difference[y, x])));
                return (pixel, (rows / (1 + (s * s))) - (pixel / difference.GetLength(1)));
            })];
            VariancePartsAssert(channel.Temporal!, places.Average(p => p.Pixel), places.Average(p => p.Row));
        }
    }, iter: 40);

    private static void VariancePartsAssert(TemporalVariance temporal, double pixel, double row)
    {
        Assert.Equal(pixel, temporal.Parts.PixelDn2, 1e-8 * pixel);
        if (temporal.BandDn2 is null)
        {
            Assert.Equal(row, temporal.Parts.RowDn2, 1e-8 * pixel);
        }
    }

    private static (ushort[][] Frames, PixelRectangle Region, LevelStatistics Measured) Measure(
        (int Frames, int Width, int Height, int Array, int Left, int Top, int Seed) c, FrameRole role = FrameRole.Bracket, double blackDn = 0)
    {
        var random = new Random(c.Seed);
        ushort[][] frames = [.. Enumerable.Range(0, c.Frames).Select(f => Enumerable.Range(0, c.Width * c.Height).Select(i => (ushort)(1000 + (40 * f) + (i % c.Width) + random.Next(300))).ToArray())];
        ColourFilterArray array = Arrays[c.Array];
        var wanted = new PixelRectangle(c.Left, c.Top, c.Width - c.Left, c.Height - c.Top);
        LevelStatistics measured = MadeUpLevel.Measure(frames, c.Width, array, role, wanted, blackDn);

        // Whole cells of the colour filter array inside what is wanted.
        int left = (c.Left + array.Columns - 1) / array.Columns * array.Columns;
        int top = (c.Top + array.Rows - 1) / array.Rows * array.Rows;
        return (frames, new PixelRectangle(left, top, (c.Width - left) / array.Columns * array.Columns, (c.Height - top) / array.Rows * array.Rows), measured);
    }

    /// <summary>The planes of all frames, for each place that a channel has in the repeat.</summary>
    private static IEnumerable<double[][,]> PlaceByPlace(ushort[][] frames, int width, ColourFilterArray array, SensorChannel channel, PixelRectangle region)
    {
        double[][][,] planes = [.. frames.Select(f => MadeUpLevel.Planes(f, width, array, channel, region))];
        return Enumerable.Range(0, planes[0].Length).Select(place => planes.Select(p => p[place]).ToArray());
    }

    private static double[,] Combine(IReadOnlyList<double[,]> planes, Func<int, double[], double> combine)
    {
        double[,] result = new double[planes[0].GetLength(0), planes[0].GetLength(1)];
        for (int y = 0; y < result.GetLength(0); y++)
        {
            for (int x = 0; x < result.GetLength(1); x++)
            {
                result[y, x] = combine(y, [.. planes.Select(p => p[y, x])]);
            }
        }

        return result;
    }

    private static IEnumerable<(int Top, int Bottom, int Left, int Right)> Blocks(double[,] plane, ColourFilterArray array)
    {
        var grid = new BlockGrid(plane.GetLength(1), plane.GetLength(0), Math.Max(array.Rows, array.Columns));
        for (int row = 0; row < grid.BlockRows; row++)
        {
            for (int column = 0; column < grid.BlockColumns; column++)
            {
                yield return (grid.FirstRowOf(row), grid.FirstRowOf(row) + grid.RowsOf(row), grid.FirstColumnOf(column), grid.FirstColumnOf(column) + grid.ColumnsOf(column));
            }
        }
    }

    private static double Degrees(double[,] plane, ColourFilterArray array) => Blocks(plane, array).Sum(b => (b.Bottom - b.Top - 1.0) * (b.Right - b.Left - 1));

    /// <summary>Σ (y − row mean − column mean + mean)² over every block.</summary>
    private static double CentredSquares(double[,] plane, ColourFilterArray array)
    {
        double sum = 0;
        foreach ((int top, int bottom, int left, int right) in Blocks(plane, array))
        {
            int[] ys = [.. Enumerable.Range(top, bottom - top)];
            int[] xs = [.. Enumerable.Range(left, right - left)];
            Dictionary<int, double> rows = ys.ToDictionary(y => y, y => xs.Average(x => plane[y, x]));
            Dictionary<int, double> columns = xs.ToDictionary(x => x, x => ys.Average(y => plane[y, x]));
            double mean = rows.Values.Average();
            sum += ys.Sum(y => xs.Sum(x => Math.Pow(plane[y, x] - rows[y] - columns[x] + mean, 2)));
        }

        return sum;
    }

    private static double Variance(IEnumerable<double> values)
    {
        double[] all = [.. values];
        double mean = all.Average();
        return all.Sum(v => (v - mean) * (v - mean)) / (all.Length - 1);
    }

    [Fact]
    public void FixedPattern_LinesWithoutAnyPixelNoise_IsAFiniteNumber()
    {
        // A clipped frame, and one of which a failing card lost whole rows: nothing is left of a block but rounding, of either sign.
        const int Width = 15;
        const int Height = 10;
        var random = new Random(1);
        for (int i = 0; i < 200; i++)
        {
            int rows = random.Next(1, Height - 1);
            ushort lost = (ushort)random.Next(16383);
            ushort[] whole = [.. Enumerable.Repeat((ushort)16383, Width * Height)];
            ushort[] torn = [.. whole.Select((code, at) => at / Width < rows ? lost : code)];

            LevelStatistics level = MadeUpLevel.Measure([whole, torn], Width, ColourFilterArray.Monochrome);

            Assert.All(level.Channels, channel => Assert.True(channel.FixedPattern is { PixelDn2: > double.NegativeInfinity and < double.PositiveInfinity, PixelUncertaintyDn2: >= 0 }, $"{rows} rows of {lost}: {channel.FixedPattern}"));
        }
    }
}
