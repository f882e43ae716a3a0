using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Pixels.Planes;

namespace SensorLab.Pixels.Neighbours;

/// <summary>Measures how the temporal noise of photosites next to each other goes together across the channels, in the blocks and pairs of frames that the channels sample.</summary>
/// <remarks>
/// A filter that takes from the nearest neighbours, whatever their colour, leaves hardly a trace inside a channel. Each
/// product is divided by the two blocks' own deviations, so that channels of any sensitivity count alike; in white noise
/// products have a mean of 0, a variance of 1, and hardly a correlation with each other: the means that were taken out of
/// two planes leave as many independent ones as values less means.
/// </remarks>
/// <param name="array">The filters.</param>
/// <param name="cell">The planes of a repeat, row by row.</param>
internal sealed class MosaicNeighbourMeter(ColourFilterArray array, PlaneAccumulator[] cell)
{
    private readonly Products _sides = new();
    private readonly Products _corners = new();

    private bool IsSmall => (array.Rows, array.Columns) == (2, 2);

    /// <summary>Takes in the blocks that the channels sampled of a row of blocks.</summary>
    public void AddBlockRow()
    {
        for (int block = 0; block < cell[0].SampledNoise.Length; block++)
        {
            BlockResiduals[] noise = Array.ConvertAll(cell, c => c.SampledNoise[block]);
            if (noise.All(n => n.MeanSquare > 0))
            {
                AddBlock(noise);
            }
        }
    }

    /// <summary>The correlations; null where no block was sampled.</summary>
    public NoiseNeighbours? ToNeighbours() => _sides.Pairs > 0
        ? new NoiseNeighbours(
            Correlation(_sides.Sum, _sides.Pairs, _sides.Variance),
            Correlation(_sides.Sum + _corners.Sum, _sides.Pairs + _corners.Pairs, _sides.Variance + _corners.Variance))
        : null;

    private void AddBlock(BlockResiduals[] noise)
    {
        // In a repeat of 2×2 each place lies beside the other on both sides; in a larger one the last beside the next repeat's first.
        // Of one row alone, neighbours above and below are of one plane, whose means were taken out.
        int rowsBeside = IsSmall || array.Rows == 1 ? array.Rows - 1 : array.Rows;
        int columnsBeside = IsSmall || array.Columns == 1 ? array.Columns - 1 : array.Columns;
        for (int row = 0; row < array.Rows; row++)
        {
            for (int column = 0; column < columnsBeside; column++)
            {
                Add(_sides, noise, (row, column), (row, column + 1));
            }
        }

        for (int row = 0; row < rowsBeside; row++)
        {
            for (int column = 0; column < array.Columns; column++)
            {
                Add(_sides, noise, (row, column), (row + 1, column));
            }
        }

        for (int row = 0; row < rowsBeside; row++)
        {
            for (int column = 0; column < columnsBeside; column++)
            {
                Add(_corners, noise, (row, column), (row + 1, column + 1));
                Add(_corners, noise, (row, column + 1), (row + 1, column));
            }
        }
    }

    /// <summary>Adds two places next to each other; one of them may lie in the next repeat.</summary>
    private void Add(Products products, BlockResiduals[] noise, (int Row, int Column) upper, (int Row, int Column) lower)
    {
        if (array.ChannelAt(upper.Row, upper.Column) == array.ChannelAt(lower.Row, lower.Column))
        {
            return; // Photosites under one filter: what they share is the channel's own.
        }

        int down = lower.Row / array.Rows;
        int right = (lower.Column / array.Columns) - (upper.Column / array.Columns);
        List<(int Down, int Right)> steps = [(down, right)];
        if (IsSmall && lower.Column != upper.Column)
        {
            steps.Add((down, lower.Column > upper.Column ? 1 : -1));
        }

        if (IsSmall && lower.Row != upper.Row)
        {
            steps.AddRange([.. steps.Select(s => (s.Down + 1, s.Right))]);
        }

        // A step leads from the second plane's site to the first's: what lies in the next repeat goes first.
        bool isAhead = down > 0 || right > 0;
        (BlockResiduals first, BlockResiduals second) = isAhead ? (At(lower), At(upper)) : (At(upper), At(lower));
        if (!isAhead && right < 0)
        {
            steps = [.. steps.Select(s => (s.Down, -s.Right))];
        }

        products.Add(first, second, steps.ToArray());

        BlockResiduals At((int Row, int Column) place) => noise[(place.Row % array.Rows * array.Columns) + (place.Column % array.Columns)];
    }

    private static Estimate Correlation(double sum, double pairs, double variance) => new(sum / pairs, Math.Sqrt(variance) / pairs);

    /// <summary>Products of neighbours in standard deviations.</summary>
    private sealed class Products
    {
        public double Sum { get; private set; }

        public double Pairs { get; private set; }

        /// <summary>Variance of <see cref="Sum"/> in white noise.</summary>
        public double Variance { get; private set; }

        /// <summary>Adds a block of two channels.</summary>
        /// <param name="first">One channel's noise.</param>
        /// <param name="second">The other's.</param>
        /// <param name="steps">Rows down and columns right, in the first channel's plane, from the second's site to the first's that lie next to it.</param>
        public void Add(BlockResiduals first, BlockResiduals second, params ReadOnlySpan<(int Down, int Right)> steps)
        {
            double deviations = Math.Sqrt(first.MeanSquare * second.MeanSquare);
            foreach ((int down, int right) in steps)
            {
                int columns = first.Columns - Math.Abs(right);
                for (int row = 0; row < first.Rows - down; row++)
                {
                    ReadOnlySpan<double> own = first.Row(row + down).Slice(Math.Max(0, right), columns);
                    Sum += Product(own, second.Row(row).Slice(Math.Max(0, -right), columns)) / deviations;
                }

                double pairs = (first.Rows - down) * columns;
                Pairs += pairs;
                Variance += pairs / first.Kept;
            }
        }

        private static double Product(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
        {
            double sum = 0;
            for (int i = 0; i < a.Length; i++)
            {
                sum += a[i] * b[i];
            }

            return sum;
        }
    }
}
