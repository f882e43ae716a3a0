namespace SensorLab.Pixels.Kernels;

/// <summary>Sums of values that come in clusters (rows, or columns), to tell how sure their common mean is.</summary>
internal sealed class ClusterSums(int clusters)
{
    private readonly double[] _sums = new double[clusters];
    private readonly long[] _counts = new long[clusters];

    /// <summary>How many values were added.</summary>
    public long Values => _counts.Sum();

    /// <summary>The mean of all values.</summary>
    public double Mean => _sums.Sum() / Values;

    /// <summary>Adds a value.</summary>
    public void Add(int cluster, double value)
    {
        _sums[cluster] += value;
        _counts[cluster]++;
    }

    /// <summary>Variance of the mean, from the clusters' scatter alone; 0 with a single cluster, which cannot tell.</summary>
    /// <remarks>The ratio estimator's: Σ(Sᵢ − nᵢ·m)² / N², times k/(k − 1) for k clusters.</remarks>
    public double VarianceOfMean()
    {
        double mean = Mean;
        double values = Values;
        int used = _counts.Count(count => count > 0);
        double squares = 0;
        for (int i = 0; i < _sums.Length; i++)
        {
            double residual = _sums[i] - (_counts[i] * mean);
            squares += residual * residual;
        }

        return used < 2 ? 0 : squares / (values * values) * used / (used - 1);
    }
}
