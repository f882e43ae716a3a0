using MathNet.Numerics;
using MathNet.Numerics.Distributions;
using SensorLab.Law;

namespace SensorLab.Measurement.Black;

/// <summary>What the means of dark frames tell of black, of its drift and of dark signal, together.</summary>
/// <remarks>
/// Mean of frame f of level l: b + r·d_l + L_l + F_lf + e_lf. b is black, d_l the level's time beyond the shortest as a share
/// of the longest's, r ~ N(0, ρ²) and above 0 the dark signal of the longest, F ~ N(0, φ) a black that differs from
/// frame to frame, L ~ N(0, κφ) from level to level beside that, e temporal noise of known variance. Given ρ, φ and κ, all is
/// linear and normal (restricted likelihood, b flat); over these three it is summed, each with a share of probability at none and
/// the rest even in its logarithm. A black that differs between levels whose own frames agree is dark signal, or a drift of
/// frames that hid: κ ends at ten. So nothing is decided by a threshold: what cannot be told widens black by as much as it may be there, and a
/// drift that is beyond doubt leaves Student's distribution with the frames' degrees of freedom.
/// </remarks>
internal sealed class BlackPosterior
{
    /// <summary>How often a black drifts from frame to frame: an assumption, which a frame or two more outweigh.</summary>
    private const double DriftProbability = 0.3;

    /// <summary>How often a black that drifts from frame to frame drifts from level to level, too.</summary>
    private const double LevelProbability = 0.25;

    /// <summary>How often dark signal grows over the times that dark frames are given: of most sensors that are warm.</summary>
    private const double RiseProbability = 0.7;

    /// <summary>A quarter of a decade of variance: the step of the frames' grid, which some ten frames tell so finely.</summary>
    private const double FrameStep = 1.7782794100389228;

    /// <summary>Half a decade: the step of what a single difference of levels tells.</summary>
    private const double RiseStep = 3.1622776601683795;

    /// <summary>Variance over the noise's at which grids begin: less of it changes nothing.</summary>
    private const double Smallest = 0.1;

    /// <summary>Variance over what is seen at which grids end: of one degree of freedom a hundredth lies above.</summary>
    private const double LargestOfFrames = 1e4;

    private const double LargestOfRise = 100;

    /// <summary>κ: from a tenth to ten times the frames' variance.</summary>
    private static readonly double[] LevelsOverFrames = [0, 0.1, 0.3, 1, 3, 10];

    /// <summary>Exposure ratio below which a rise cannot be told from a drift.</summary>
    private const double SmallestRatio = 2;

    /// <summary>Share of the likeliest point below which a point of the grid counts for nothing.</summary>
    private const double Negligible = 1e-5;

    /// <summary>Probability within one standard deviation of a normal variate.</summary>
    private const double WithinOne = 0.6826894921370859;

    private const double Within95 = 0.95;

    private const int Halvings = 24;

    private readonly IReadOnlyList<DarkFrames> _levels;
    private readonly double[] _delays;
    private readonly double _originDn;
    private readonly List<Point> _points = [];

    /// <summary>Looks at dark levels.</summary>
    /// <param name="levels">One level or more.</param>
    public BlackPosterior(IReadOnlyList<DarkFrames> levels)
    {
        _levels = levels;
        _originDn = levels[0].MeanDn;
        double first = levels.Min(l => l.Seconds);
        double span = levels.Max(l => l.Seconds) - first;
        _delays = [.. levels.Select(l => span > 0 ? (l.Seconds - first) / span : 0)];
        Sum(canRise: levels.Max(l => l.Seconds) >= SmallestRatio * first && span > 0);
        double total = _points.Sum(p => p.Weight);
        LevelWeights = [.. levels.Select((_, l) => _points.Sum(p => p.Weight * p.LevelWeights[l]) / total)];
        double noise = levels.Average(l => l.TemporalDn2);
        FrameDn2 = Math.Max(0, (total / _points.Sum(p => p.Weight / (noise + p.FrameDn2))) - noise);
        LevelDn2 = FrameDn2 * Math.Max(0, (total / _points.Sum(p => p.Weight / (1 + p.LevelOverFrame))) - 1);
        Rises = _points.Sum(p => p.Rises ? p.Weight : 0) / total;
        RiseDn = _points.Sum(p => p.Weight * p.RiseDn) / total;
        Black = Quantiled(total);
    }

    /// <summary>Black, the channels' mean: with the quantiles of its distribution as Student's.</summary>
    public Estimate Black { get; }

    /// <summary>The share of each level in black; they add up to 1.</summary>
    public IReadOnlyList<double> LevelWeights { get; }

    /// <summary>Variance of black from frame to frame in DN²: of what inverse variances are on the mean, which is the frames' own variance where drift is all there is, however few they are.</summary>
    public double FrameDn2 { get; }

    /// <summary>Variance of black from level to level beside that, in DN².</summary>
    public double LevelDn2 { get; }

    /// <summary>Probability that dark signal grows.</summary>
    public double Rises { get; }

    /// <summary>Dark signal of the longest level beyond the shortest, in DN.</summary>
    public double RiseDn { get; }

    /// <summary>What a level holds of it, in DN.</summary>
    /// <param name="level">Index of the level.</param>
    public double RiseOf(int level) => RiseDn * _delays[level];

    private static double[] Scales(double smallest, double largest, double step, bool any)
    {
        List<double> scales = [0];
        for (double scale = smallest; any && scale <= largest; scale *= step)
        {
            scales.Add(scale);
        }

        return [.. scales];
    }

    private void Sum(bool canRise)
    {
        double noise = _levels.Average(l => l.TemporalDn2);
        double noiseOfMean = _levels.Min(l => l.TemporalDn2 / l.MeansDn.Count);
        int degrees = _levels.Sum(l => l.MeansDn.Count - 1);
        double within = degrees == 0 ? 0 : _levels.Sum(l => l.SquaresDn2) / degrees;
        double range = _levels.Max(l => l.MeanDn) - _levels.Min(l => l.MeanDn);
        double[] frames = Scales(Smallest * noise, LargestOfFrames * Math.Max(noise, Math.Max(within, range * range)), FrameStep, any: _levels.Sum(l => l.MeansDn.Count) > 1);
        double[] rises = Scales(Smallest * noiseOfMean, LargestOfRise * Math.Max(range * range, noiseOfMean), RiseStep, canRise);
        foreach (double frame in frames)
        {
            double[] ratios = frame > 0 && _levels.Count > 1 ? LevelsOverFrames : [0];
            foreach (double ratio in ratios)
            {
                foreach (double rise in rises)
                {
                    double prior = Prior(frame, frames, DriftProbability) + Prior(ratio, ratios, LevelProbability) + Prior(rise, rises, RiseProbability);
                    _points.Add(At(frame, ratio, rise, prior));
                }
            }
        }

        double most = _points.Max(p => p.Weight);
        for (int i = 0; i < _points.Count; i++)
        {
            _points[i] = _points[i] with { Weight = Math.Exp(_points[i].Weight - most) };
        }

        _points.RemoveAll(p => !(p.Weight > Negligible));
    }

    /// <summary>Logarithm of a grid point's probability before the frames are seen.</summary>
    private static double Prior(double scale, double[] scales, double probability) =>
        scales.Length == 1 ? 0 : Math.Log(scale == 0 ? 1 - probability : probability / (scales.Length - 1));

    /// <summary>One point, its weight still a logarithm: V = D + ρ²·d·dᵀ, inverted as Sherman and Morrison do.</summary>
    private Point At(double frameDn2, double levelOverFrame, double riseDn2, double logPrior)
    {
        (double ones, double delays, double squares, double means, double mixed, double meanSquares) = (0, 0, 0, 0, 0, 0);
        double log = logPrior;
        double[] inverse = new double[_levels.Count];
        for (int l = 0; l < inverse.Length; l++)
        {
            DarkFrames level = _levels[l];
            double count = level.MeansDn.Count;
            double perFrame = frameDn2 + level.TemporalDn2;
            double variance = (levelOverFrame * frameDn2) + (perFrame / count);
            double mean = level.MeanDn - _originDn;
            log -= 0.5 * (((count - 1) * Math.Log(perFrame)) + (level.SquaresDn2 / perFrame) + Math.Log(variance));
            inverse[l] = 1 / variance;
            ones += inverse[l];
            delays += inverse[l] * _delays[l];
            squares += inverse[l] * _delays[l] * _delays[l];
            means += inverse[l] * mean;
            mixed += inverse[l] * mean * _delays[l];
            meanSquares += inverse[l] * mean * mean;
        }

        double known = riseDn2 / (1 + (riseDn2 * squares));
        double information = ones - (known * delays * delays);
        double black = (means - (known * delays * mixed)) / information;
        double rise = known * (mixed - (black * delays));
        log -= 0.5 * (Math.Log(1 + (riseDn2 * squares)) + Math.Log(information) + meanSquares - (known * mixed * mixed) - (black * black * information));
        if (riseDn2 > 0)
        {
            log += Math.Log(2 * Normal.CDF(0, 1, rise / Math.Sqrt(known + (known * known * delays * delays / information))));
        }

        return new Point(log, black, 1 / information, frameDn2, levelOverFrame, rise, riseDn2 > 0, [.. inverse.Select((v, l) => v * (1 - (known * delays * _delays[l])) / information)]);
    }

    /// <summary>The mean, with the standard uncertainty and the degrees of freedom whose Student distribution has as much within one deviation and within 95 %.</summary>
    private Estimate Quantiled(double total)
    {
        double mean = _points.Sum(p => p.Weight * p.BlackDn) / total;
        double one = HalfWidth(mean, total, WithinOne);
        double most = HalfWidth(mean, total, Within95);
        (double few, double many) = (0.0, 1.0);
        for (int i = 0; i < Halvings; i++)
        {
            // In 1/ν: from the normal distribution to one degree of freedom.
            double middle = (few + many) / 2;
            (few, many) = RatioOf(1 / middle) < most / one ? (middle, many) : (few, middle);
        }

        double degrees = few > 0 ? 1 / many : double.PositiveInfinity;
        return new Estimate(_originDn + mean, most / StudentTail.Factor95(degrees), degrees);
    }

    private static double RatioOf(double degrees) => StudentTail.Factor95(degrees) / StudentTail.Quantile((1 - WithinOne) / 2, degrees);

    private double HalfWidth(double mean, double total, double share)
    {
        (double low, double high) = (0.0, _points.Max(p => Math.Abs(p.BlackDn - mean) + (40 * Math.Sqrt(p.Variance))));
        for (int i = 0; i < Halvings; i++)
        {
            double middle = (low + high) / 2;
            double within = _points.Sum(p => p.Weight * Within(p, mean, middle)) / total;
            (low, high) = within < share ? (middle, high) : (low, middle);
        }

        return high;
    }

    private static double Within(Point point, double mean, double half)
    {
        double scale = Math.Sqrt(2 * point.Variance);
        return 0.5 * (SpecialFunctions.Erf((mean + half - point.BlackDn) / scale) - SpecialFunctions.Erf((mean - half - point.BlackDn) / scale));
    }

    private readonly record struct Point(double Weight, double BlackDn, double Variance, double FrameDn2, double LevelOverFrame, double RiseDn, bool Rises, double[] LevelWeights);
}
