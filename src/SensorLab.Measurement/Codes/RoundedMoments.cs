using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace SensorLab.Measurement.Codes;

/// <summary>
/// What a pixel's rounded values in several frames are expected to show: the share of each code, and the spread between
/// frames, with their covariance from pixel to pixel.
/// </summary>
internal sealed class RoundedMoments
{
    /// <summary>Share of the total variance that lines may have: their pixels have some of their own.</summary>
    private const double LargestShared = 0.9;

    /// <summary>Standard deviations from which a double holds the normal distribution as one, and to which it holds it as nothing.</summary>
    private const double AllBelow = 8.5;

    private const double NoneBelow = -39;

    private readonly int _firstCode;
    private readonly int _codes;
    private readonly int _frames;

    /// <summary>Sets the codes and frames.</summary>
    /// <param name="firstCode">Lowest code in DN.</param>
    /// <param name="codes">Codes from there on that values may have.</param>
    /// <param name="frames">Frames that share their pixels, two or more.</param>
    public RoundedMoments(int firstCode, int codes, int frames)
    {
        _firstCode = firstCode;
        _codes = codes;
        _frames = frames;
    }

    /// <summary>Expected share of each code, then the expected variance between a pixel's frames.</summary>
    /// <param name="meanDn">Black level in DN.</param>
    /// <param name="temporalDn2">Temporal variance before rounding in DN², above 0.</param>
    /// <param name="totalDn2">Temporal and pattern variance in DN², above 0; below the temporal one it stands for a negative DSNU².</param>
    public Vector<double> Expected(double meanDn, double temporalDn2, double totalDn2)
    {
        double pattern = totalDn2 - temporalDn2;
        double spread = NormalNodes.Of(meanDn, Math.Abs(pattern)).Sum(node => node.Weight * Spread(Shares(node.Place, temporalDn2)));
        if (pattern < 0)
        {
            // Reflected at zero: the slope goes on, so that an unbiased DSNU² may be negative.
            spread = (2 * Spread(Shares(meanDn, temporalDn2))) - spread;
        }

        return Vector<double>.Build.DenseOfArray([.. Shares(meanDn, totalDn2), spread]);
    }

    /// <summary>Covariance of the same from one pixel to the next.</summary>
    /// <param name="meanDn">Black level in DN.</param>
    /// <param name="temporalDn2">Temporal variance in DN².</param>
    /// <param name="totalDn2">Temporal and pattern variance in DN².</param>
    public Matrix<double> Covariance(double meanDn, double temporalDn2, double totalDn2)
    {
        double[] within = new double[(_codes + 1) * (_codes + 1)];
        Matrix<double> covariance = Between(NormalNodes.Of(meanDn, Math.Max(0, totalDn2 - temporalDn2)), within, place =>
        {
            double[] shares = Shares(place, temporalDn2);
            FillOfOnePixel(shares, within);
            return [.. shares, Spread(shares)];
        });

        // Far out the places end before the pattern does, and a code that is met by few would seem to be known by far too well:
        // its share scatters by no less than that of frames that have nothing in common.
        double[] expected = Shares(meanDn, totalDn2);
        for (int i = 0; i < _codes; i++)
        {
            covariance[i, i] = Math.Max(covariance[i, i], expected[i] * (1 - expected[i]) / _frames);
        }

        return covariance;
    }

    /// <summary>Covariance of the same from one line to the next, whose pixels share a variance: it is part of the total one.</summary>
    /// <param name="meanDn">Black level in DN.</param>
    /// <param name="temporalDn2">Temporal variance in DN².</param>
    /// <param name="totalDn2">Temporal and pattern variance in DN².</param>
    /// <param name="sharedDn2">The shared variance in DN².</param>
    public Matrix<double> CovarianceOfLines(double meanDn, double temporalDn2, double totalDn2, double sharedDn2)
    {
        double shared = Math.Min(sharedDn2, LargestShared * totalDn2);
        return Between(NormalNodes.Of(meanDn, shared), null, place => Expected(place, temporalDn2, totalDn2 - shared).AsArray());
    }

    /// <summary>Covariance over places: within each, and of what is expected at each.</summary>
    /// <param name="places">The places.</param>
    /// <param name="within">The covariance within a place, row by row, as <paramref name="expectedAt"/> left it; null for none.</param>
    /// <param name="expectedAt">What is expected at a place.</param>
    private Matrix<double> Between(IEnumerable<(double Place, double Weight)> places, double[]? within, Func<double, double[]> expectedAt)
    {
        // Plain arrays: this is most of a fit's work, and its square.
        int size = _codes + 1;
        double[] mean = new double[size];
        double[] squares = new double[size * size];
        foreach ((double place, double weight) in places)
        {
            double[] expected = expectedAt(place);
            for (int i = 0; i < size; i++)
            {
                mean[i] += weight * expected[i];
                for (int j = 0; j < size; j++)
                {
                    squares[(i * size) + j] += weight * ((within is null ? 0 : within[(i * size) + j]) + (expected[i] * expected[j]));
                }
            }
        }

        return Matrix<double>.Build.Dense(size, size, (i, j) => squares[(i * size) + j] - (mean[i] * mean[j]));
    }

    /// <summary>
    /// Covariance over draws of frames: shares are multinomial; Var(s²) = (μ₄ − μ₂²(n − 3)/(n − 1))/n;
    /// Cov(share, s²) = p·((code − μ)² − μ₂)/n.
    /// </summary>
    private void FillOfOnePixel(double[] shares, double[] covariance)
    {
        double mean = shares.Select((p, i) => p * i).Sum();
        double second = Spread(shares);
        double fourth = shares.Select((p, i) => p * Math.Pow(i - mean, 4)).Sum();
        double frames = _frames;
        int size = _codes + 1;
        for (int i = 0; i < _codes; i++)
        {
            for (int j = 0; j < _codes; j++)
            {
                covariance[(i * size) + j] = ((i == j ? shares[i] : 0) - (shares[i] * shares[j])) / frames;
            }

            double cross = shares[i] * (((i - mean) * (i - mean)) - second) / frames;
            covariance[(i * size) + _codes] = cross;
            covariance[(_codes * size) + i] = cross;
        }

        covariance[^1] = (fourth - (second * second * (frames - 3) / (frames - 1))) / frames;
    }

    /// <summary>Probability of each code; the outermost take the tails in.</summary>
    private double[] Shares(double meanDn, double varianceDn2)
    {
        double deviation = Math.Sqrt(varianceDn2);
        double[] shares = new double[_codes];
        double below = 0;
        for (int i = 0; i < _codes; i++)
        {
            double distance = (_firstCode + i + 0.5 - meanDn) / deviation;
            double upTo = i == _codes - 1 || distance > AllBelow ? 1 : distance < NoneBelow ? 0 : Normal.CDF(meanDn, deviation, _firstCode + i + 0.5);
            shares[i] = upTo - below;
            below = upTo;
        }

        return shares;
    }

    private static double Spread(double[] shares)
    {
        double mean = shares.Select((p, i) => p * i).Sum();
        return shares.Select((p, i) => p * (i - mean) * (i - mean)).Sum();
    }
}

/// <summary>A normal distribution as some places with their weights.</summary>
internal static class NormalNodes
{
    /// <summary>Standard deviations that the places reach to either side.</summary>
    public const double Reach = 4;

    private const int Count = 33;

    /// <summary>Weights of the places, their sum 1.</summary>
    private static readonly double[] Weights = Normalised([.. Enumerable.Range(0, Count).Select(i => Math.Exp(-Place(i) * Place(i) / 2))]);

    /// <summary>The places.</summary>
    /// <param name="mean">The distribution's mean.</param>
    /// <param name="variance">Its variance, 0 or more.</param>
    public static IEnumerable<(double Place, double Weight)> Of(double mean, double variance)
    {
        double deviation = Math.Sqrt(variance);
        return Weights.Select((weight, i) => (mean + (Place(i) * deviation), weight));
    }

    private static double Place(int node) => Reach * ((2.0 * node / (Count - 1)) - 1);

    private static double[] Normalised(double[] weights)
    {
        double sum = weights.Sum();
        return [.. weights.Select(w => w / sum)];
    }
}
