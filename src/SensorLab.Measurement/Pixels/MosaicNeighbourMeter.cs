using SensorLab.Law;

namespace SensorLab.Measurement.Pixels;

/// <summary>Measures how the temporal noise of photosites next to each other goes together across the channels, in the blocks that the channels sample.</summary>
/// <remarks>
/// A filter that takes from the nearest neighbours, whatever their colour, leaves hardly a trace inside a channel. Each
/// product is divided by the two blocks' own deviations, so that channels of any sensitivity count alike; in white noise
/// products have a mean of 0, a variance of 1, and no correlation with each other.
/// </remarks>
/// <param name="cell">The channels of the region's first two rows, two of each.</param>
internal sealed class MosaicNeighbourMeter(ChannelAccumulator[] cell)
{
    private readonly Products _sides = new();
    private readonly Products _corners = new();

    /// <summary>Takes in the blocks that the channels sampled of a row of blocks.</summary>
    public void AddBlockRow()
    {
        for (int block = 0; block < cell[0].SampledNoise.Length; block++)
        {
            BlockResiduals[] noise = Array.ConvertAll(cell, c => c.SampledNoise[block]);
            if (noise.All(n => n.MeanSquare > 0))
            {
                AddBlock(noise[0], noise[1], noise[2], noise[3]);
            }
        }
    }

    /// <summary>The correlations; null where no block was sampled.</summary>
    public NoiseNeighbours? ToNeighbours() => _sides.Pairs > 0
        ? new NoiseNeighbours(Correlation(_sides.Sum, _sides.Pairs), Correlation(_sides.Sum + _corners.Sum, _sides.Pairs + _corners.Pairs))
        : null;

    private void AddBlock(BlockResiduals topLeft, BlockResiduals topRight, BlockResiduals bottomLeft, BlockResiduals bottomRight)
    {
        _sides.Add(topLeft, topRight, (0, 0), (0, 1));
        _sides.Add(bottomLeft, bottomRight, (0, 0), (0, 1));
        _sides.Add(topLeft, bottomLeft, (0, 0), (1, 0));
        _sides.Add(topRight, bottomRight, (0, 0), (1, 0));
        _corners.Add(topLeft, bottomRight, (0, 0), (0, 1), (1, 0), (1, 1));
        _corners.Add(topRight, bottomLeft, (0, 0), (0, -1), (1, 0), (1, -1));
    }

    private static Estimate Correlation(double sum, double pairs) => new(sum / pairs, 1 / Math.Sqrt(pairs));

    /// <summary>Products of neighbours in standard deviations.</summary>
    private sealed class Products
    {
        public double Sum { get; private set; }

        public double Pairs { get; private set; }

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

                Pairs += (first.Rows - down) * columns;
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
