using System.Numerics;
using SensorLab.Law;
using SensorLab.Pixels.Kernels;
using SensorLab.Pixels.Planes;

namespace SensorLab.Pixels.Defects;

/// <summary>Finds defective pixels and puts a neighbour of the same channel in their place, in all frames of the level.</summary>
/// <remarks>
/// A pixel is judged in the sum of the level's frames, so that only what all frames share counts, against the medians
/// of its row and column of the block, in standard deviations from the median magnitude: neither hides a hot pixel
/// behind other hot ones, nor takes its neighbours for hot. At the thresholds used, a normal distribution loses less
/// than 2·10⁻⁵ of its variance, while one pixel in a thousand at six standard deviations would add 4 %.
/// </remarks>
internal sealed class DefectFilter
{
    /// <summary>
    /// How many times farther one extreme lies from the mean than the other, from which a block is looked at, too: a tenth
    /// of the pixels hot in all sizes hide behind their own deviation, but not from the other side.
    /// </summary>
    private const double LargestAsymmetry = 3;

    /// <summary>Code steps a frame below which nothing is a defect: rounding alone does as much.</summary>
    private const double SmallestSteps = 2.5;

    /// <summary>Deviation of a normal variate over the median of its magnitude.</summary>
    private const double DeviationOverMedian = 1.4826;

    private const int BitsOfAWord = 64;

    private readonly double _threshold;
    private readonly int _frames;

    public DefectFilter(bool dark, int frames)
    {
        _threshold = dark ? Significance.DefectInDark : Significance.DefectInLight;
        _frames = frames;
    }

    /// <summary>Replaces the defects of a block.</summary>
    /// <returns>The pixels replaced.</returns>
    public IReadOnlyList<ReplacedPixel> Apply(ReadOnlySpan<PlaneBand> bands, int firstColumn, BlockWorkspace block)
    {
        double suspicious = Math.Max(Significance.SuspiciousBlock * DeviationOf(block), SmallestSteps * _frames);
        double mean = Enumerable.Range(0, _frames).Sum(f => block.SumsOf(f).Sum) / ((double)block.Rows * block.Columns);
        double above = block.StackExtremes.Highest - mean;
        double below = mean - block.StackExtremes.Lowest;
        bool isOneSided = Math.Max(above, below) > Math.Max(LargestAsymmetry * Math.Min(above, below), SmallestSteps * _frames);
        if (!isOneSided && above <= suspicious && below <= suspicious)
        {
            return [];
        }

        double[] off = Magnitudes(bands, firstColumn, block);
        double limit = LimitOf(off, DeviationOf(block), StepOf(bands, firstColumn, block));
        bool[] defects = [.. off.Select(o => o > limit)];
        List<ReplacedPixel> replaced = [];
        for (int i = 0; i < defects.Length; i++)
        {
            if (defects[i])
            {
                int row = i / block.Columns;
                replaced.Add(Replace(bands, row, firstColumn, i % block.Columns, defects.AsSpan(row * block.Columns, block.Columns)));
            }
        }

        return replaced;
    }

    /// <summary>How far each pixel of the frames' sum is off the medians of its row and column.</summary>
    private static double[] Magnitudes(ReadOnlySpan<PlaneBand> bands, int firstColumn, BlockWorkspace block)
    {
        var off = new double[block.Rows * block.Columns];
        double[] line = new double[block.Columns];
        for (int row = 0; row < block.Rows; row++)
        {
            Span<double> own = off.AsSpan(row * block.Columns, block.Columns);
            foreach (PlaneBand band in bands)
            {
                ReadOnlySpan<ushort> values = band.Row(row).Slice(firstColumn, block.Columns);
                for (int column = 0; column < own.Length; column++)
                {
                    own[column] += values[column];
                }
            }

            own.CopyTo(line);
            double median = Ranked.MedianOf(line);
            foreach (ref double value in own)
            {
                value -= median;
            }
        }

        line = new double[block.Rows];
        for (int column = 0; column < block.Columns; column++)
        {
            for (int row = 0; row < block.Rows; row++)
            {
                line[row] = off[(row * block.Columns) + column];
            }

            double median = Ranked.MedianOf(line);
            for (int row = 0; row < block.Rows; row++)
            {
                off[(row * block.Columns) + column] = Math.Abs(off[(row * block.Columns) + column] - median);
            }
        }

        return off;
    }

    /// <summary>
    /// Codes make the median coarse: between it and half a step more, the block's own deviation decides, which defects can
    /// only raise.
    /// </summary>
    private double LimitOf(double[] magnitudes, double deviation, int step)
    {
        double median = Ranked.MedianOf([.. magnitudes]);
        double robust = DeviationOverMedian * median;
        double noise = Math.Clamp(deviation, robust, robust + (DeviationOverMedian * step / 2));
        return Math.Max(_threshold * noise, SmallestSteps * step * _frames);
    }

    /// <summary>The smallest distance in DN of two codes that the block's first frame holds: more than 1 where fewer bits are stored in more.</summary>
    private static int StepOf(ReadOnlySpan<PlaneBand> bands, int firstColumn, BlockWorkspace block)
    {
        Span<ulong> codes = stackalloc ulong[(ushort.MaxValue + 1) / BitsOfAWord];
        for (int row = 0; row < block.Rows; row++)
        {
            foreach (ushort code in bands[0].Row(row).Slice(firstColumn, block.Columns))
            {
                codes[code / BitsOfAWord] |= 1UL << (code % BitsOfAWord);
            }
        }

        int step = int.MaxValue;
        int before = -1;
        for (int word = 0; word < codes.Length && step > 1; word++)
        {
            for (ulong rest = codes[word]; rest != 0; rest &= rest - 1)
            {
                int code = (word * BitsOfAWord) + BitOperations.TrailingZeroCount(rest);
                step = before < 0 ? step : Math.Min(step, code - before);
                before = code;
            }
        }

        return step == int.MaxValue ? 1 : step;
    }

    private double DeviationOf(BlockWorkspace block)
    {
        double squares = 0;
        for (int frame = 0; frame < _frames; frame++)
        {
            (double own, double products) = block.CentredOf(frame);
            squares += own + (2 * products);
        }

        double degrees = (double)(block.Rows - 1) * (block.Columns - 1);
        return Math.Sqrt(Math.Max(squares, 0) / degrees);
    }

    /// <summary>Puts the nearest sound pixel of its row of the block in a defect's place, in all frames; a row without one keeps it.</summary>
    /// <param name="bands">The frames' rows.</param>
    /// <param name="row">Row of the bands.</param>
    /// <param name="firstColumn">First column of the block.</param>
    /// <param name="column">Column of the defect in the block.</param>
    /// <param name="defects">Which pixels of the block's row are defects.</param>
    public static ReplacedPixel Replace(ReadOnlySpan<PlaneBand> bands, int row, int firstColumn, int column, ReadOnlySpan<bool> defects)
    {
        for (int distance = 1; distance < defects.Length; distance++)
        {
            int sound = column - distance >= 0 && !defects[column - distance] ? column - distance
                : column + distance < defects.Length && !defects[column + distance] ? column + distance
                : -1;
            if (sound < 0)
            {
                continue;
            }

            for (int frame = 0; frame < bands.Length; frame++)
            {
                Span<ushort> values = bands[frame].Row(row);
                values[firstColumn + column] = values[firstColumn + sound];
            }

            return new ReplacedPixel(row, firstColumn + column, firstColumn + sound);
        }

        return new ReplacedPixel(row, firstColumn + column, firstColumn + column);
    }
}

/// <summary>A defect and the sound pixel of its row that stands in its place; itself where the row has none.</summary>
/// <param name="Row">Row of the bands.</param>
/// <param name="Column">Column of the bands.</param>
/// <param name="Source">Column of the pixel in its place.</param>
internal readonly record struct ReplacedPixel(int Row, int Column, int Source)
{
    /// <summary>Degrees of freedom that a block's two-way residuals lose where a pixel's value stands again at its defective neighbours.</summary>
    /// <param name="replaced">The block's defects.</param>
    /// <param name="rows">Rows of the block.</param>
    /// <param name="columns">Columns of the block.</param>
    /// <remarks>A residual has (1 − 1/rows)(1 − 1/columns) of its own value and −(1 − 1/rows)/columns of another of its row: each pair of equal ones takes twice the latter.</remarks>
    public static double LostDegrees(IReadOnlyList<ReplacedPixel> replaced, int rows, int columns)
    {
        long pairs = replaced.Where(p => p.Source != p.Column).GroupBy(p => (p.Row, p.Source)).Sum(equal => equal.LongCount() * (equal.LongCount() + 1));
        return pairs * (1 - (1.0 / rows)) / columns;
    }
}
