using SensorLab.Law;

namespace SensorLab.Measurement.Black;

/// <summary>How the means of dark frames scatter, channels on the mean: what is said of a black's drift.</summary>
/// <param name="RangeDn">The largest difference of two frames in DN.</param>
/// <param name="UncertaintyDn">What the scatter beyond noise leaves in their mean, in DN.</param>
/// <param name="Deviations">How far beyond chance the scatter is, in standard deviations.</param>
internal sealed record BlackScatter(double RangeDn, double UncertaintyDn, double Deviations)
{
    /// <summary>A fifth of what black may be off.</summary>
    public const double SmallestUncertaintyDn = 0.01;

    /// <summary>A tenth of a code: twice what black may be off.</summary>
    private const double SmallestRangeDn = 0.1;

    /// <summary>Whether black drifts so that it counts among what black may be off.</summary>
    public bool IsDrift => Deviations > Significance.BlackDrift && UncertaintyDn > SmallestUncertaintyDn;

    /// <summary>Whether lit frames, too, may have another black.</summary>
    public bool MovesLitFrames => IsDrift && RangeDn > SmallestRangeDn;

    /// <summary>Compares frames of one black.</summary>
    /// <param name="levels">Levels with two frames or more in all.</param>
    public static BlackScatter Of(IReadOnlyList<DarkFrames> levels)
    {
        double[] means = [.. levels.SelectMany(l => l.MeansDn)];
        double temporal = levels.Average(l => l.TemporalDn2);
        double mean = means.Average();
        double squares = means.Sum(m => (m - mean) * (m - mean));
        int degrees = means.Length - 1;
        double excess = Math.Max(0, (squares / degrees) - temporal);
        return new BlackScatter(means.Max() - means.Min(), Math.Sqrt(excess / means.Length), ChiSquareTest.Deviations(squares / temporal, degrees));
    }
}
