using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace SensorLab.Measurement.Noise;

/// <summary>
/// What a pixel's rounded values in several frames are expected to show: the share of each code, and the spread between
/// frames, with their covariance from pixel to pixel.
/// </summary>
internal sealed class RoundedMoments
{
    /// <summary>Nodes over ± 4 standard deviations of the fixed pattern.</summary>
    private const int PatternNodes = 33;

    private const double PatternReach = 4;

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
        double spread = Nodes(meanDn, Math.Abs(pattern)).Sum(node => node.Weight * Spread(Shares(node.MeanDn, temporalDn2)));
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
        Vector<double> mean = Vector<double>.Build.Dense(_codes + 1);
        Matrix<double> squares = Matrix<double>.Build.Dense(_codes + 1, _codes + 1);
        foreach ((double nodeMean, double weight) in Nodes(meanDn, Math.Max(0, totalDn2 - temporalDn2)))
        {
            double[] shares = Shares(nodeMean, temporalDn2);
            Vector<double> expected = Vector<double>.Build.DenseOfArray([.. shares, Spread(shares)]);
            mean += weight * expected;
            squares += weight * (OfOnePixel(shares) + expected.OuterProduct(expected));
        }

        return squares - mean.OuterProduct(mean);
    }

    /// <summary>
    /// Covariance over draws of frames: shares are multinomial; Var(s²) = (μ₄ − μ₂²(n − 3)/(n − 1))/n;
    /// Cov(share, s²) = p·((code − μ)² − μ₂)/n.
    /// </summary>
    private Matrix<double> OfOnePixel(double[] shares)
    {
        double mean = shares.Select((p, i) => p * i).Sum();
        double second = Spread(shares);
        double fourth = shares.Select((p, i) => p * Math.Pow(i - mean, 4)).Sum();
        double frames = _frames;
        Matrix<double> covariance = Matrix<double>.Build.Dense(_codes + 1, _codes + 1);
        for (int i = 0; i < _codes; i++)
        {
            for (int j = 0; j < _codes; j++)
            {
                covariance[i, j] = ((i == j ? shares[i] : 0) - (shares[i] * shares[j])) / frames;
            }

            double cross = shares[i] * (((i - mean) * (i - mean)) - second) / frames;
            covariance[i, _codes] = cross;
            covariance[_codes, i] = cross;
        }

        covariance[_codes, _codes] = (fourth - (second * second * (frames - 3) / (frames - 1))) / frames;
        return covariance;
    }

    private static IEnumerable<(double MeanDn, double Weight)> Nodes(double meanDn, double patternDn2)
    {
        double[] weights = new double[PatternNodes];
        for (int i = 0; i < PatternNodes; i++)
        {
            weights[i] = Math.Exp(-Place(i) * Place(i) / 2);
        }

        double sum = weights.Sum();
        for (int i = 0; i < PatternNodes; i++)
        {
            yield return (meanDn + (Place(i) * Math.Sqrt(patternDn2)), weights[i] / sum);
        }
    }

    private static double Place(int node) => PatternReach * ((2.0 * node / (PatternNodes - 1)) - 1);

    /// <summary>Probability of each code; the outermost take the tails in.</summary>
    private double[] Shares(double meanDn, double varianceDn2)
    {
        double deviation = Math.Sqrt(varianceDn2);
        double[] shares = new double[_codes];
        double below = 0;
        for (int i = 0; i < _codes; i++)
        {
            double upTo = i == _codes - 1 ? 1 : Normal.CDF(meanDn, deviation, _firstCode + i + 0.5);
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
