using SensorLab.Law;

namespace SensorLab.Pixels.Planes;

/// <summary>Values of one block, whose row and column means are taken out: row and column noise leave with them.</summary>
/// <param name="capacity">Values that the largest block has.</param>
internal sealed class BlockResiduals(int capacity)
{
    /// <summary>A stray value leaves a row's share of itself to its neighbours, some thirtieth, in each round: a 16-bit one is gone after four.</summary>
    private const int MostRounds = 8;

    private readonly double[] _values = new double[capacity];

    /// <summary>Rows of the block.</summary>
    public int Rows { get; private set; }

    /// <summary>Columns of the block.</summary>
    public int Columns { get; private set; }

    /// <summary>Mean square of the values; 0 where all are alike.</summary>
    public double MeanSquare { get; private set; }

    /// <summary>Values less means: as many independent ones are left of white noise.</summary>
    public double Independent => (Rows - 1.0) * (Columns - 1.0);

    /// <summary>What the means that were taken out leave of white noise, as a share of its variance.</summary>
    public double Kept => Independent / ((double)Rows * Columns);

    /// <summary>Variance of the white noise of which such squares are left.</summary>
    public double WhiteVariance => MeanSquare * Rows * Columns / Independent;

    /// <summary>Starts a block, all of it 0.</summary>
    public void Begin(int rows, int columns)
    {
        (Rows, Columns) = (rows, columns);
        _values.AsSpan(0, rows * columns).Clear();
    }

    /// <summary>A row of the block.</summary>
    /// <param name="row">Its index.</param>
    public Span<double> Row(int row) => _values.AsSpan(row * Columns, Columns);

    /// <summary>Takes out the means, and what no noise makes: a track of radiation would make its pixels go together, and its rows and columns with them.</summary>
    /// <param name="smallest">Magnitude up to which nothing is taken out: codes' own steps.</param>
    public void CentreSound(double smallest)
    {
        // Each round leaves of a stray value a share as small as a row's pixel has in its mean.
        Centre();
        for (int round = 0; round < MostRounds && ClearStray(Math.Max(smallest, Significance.StrayValue * Math.Sqrt(MeanSquare))); round++)
        {
            Centre();
        }
    }

    private bool ClearStray(double largest)
    {
        bool found = false;
        foreach (ref double value in _values.AsSpan(0, Rows * Columns))
        {
            if (Math.Abs(value) > largest)
            {
                value = 0;
                found = true;
            }
        }

        return found;
    }

    /// <summary>Takes out the means.</summary>
    public void Centre()
    {
        double[] columnMeans = new double[Columns];
        for (int row = 0; row < Rows; row++)
        {
            Span<double> values = Row(row);
            double mean = 0;
            foreach (double value in values)
            {
                mean += value / values.Length;
            }

            for (int column = 0; column < values.Length; column++)
            {
                values[column] -= mean;
                columnMeans[column] += values[column] / Rows;
            }
        }

        double squares = 0;
        for (int row = 0; row < Rows; row++)
        {
            Span<double> values = Row(row);
            for (int column = 0; column < values.Length; column++)
            {
                values[column] -= columnMeans[column];
                squares += values[column] * values[column];
            }
        }

        MeanSquare = squares / ((double)Rows * Columns);
    }
}
