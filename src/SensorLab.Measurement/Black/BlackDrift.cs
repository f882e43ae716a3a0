using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Black;

/// <summary>What a black that moves from frame to frame leaves in lit levels.</summary>
/// <param name="FrameDn2">Variance of one frame's black in DN²; 0 where black stands still.</param>
/// <param name="DarkFrames">Dark frames that black was taken from.</param>
/// <param name="DegreesOfFreedom">Of the variance: it rests on the scatter of few dark frames.</param>
public readonly record struct BlackDrift(double FrameDn2, int DarkFrames, double DegreesOfFreedom)
{
    /// <summary>A black that stands still.</summary>
    public static BlackDrift None { get; } = new(0, 1, double.PositiveInfinity);

    /// <summary>The drift that dark frames show within their levels: between levels dark signal grows, too.</summary>
    /// <param name="darks">Dark levels of one ISO.</param>
    public static BlackDrift Of(IReadOnlyList<LevelRecord> darks)
    {
        double chiSquare = 0;
        double excess = 0;
        int degrees = 0;
        foreach (LevelRecord level in darks.Where(d => d.Channels.All(c => c.TemporalParts is not null)))
        {
            double[] means = BlackMoments.FrameMeans(level);
            double mean = means.Average();
            double squares = means.Sum(m => (m - mean) * (m - mean));
            double temporal = BlackMoments.TemporalVariance(level);
            chiSquare += squares / temporal;
            excess += squares - ((means.Length - 1) * temporal);
            degrees += means.Length - 1;
        }

        return degrees > 0 && ChiSquareTest.Deviations(chiSquare, degrees) > BlackScatter.Threshold
            ? new BlackDrift(Math.Max(0, excess / degrees), darks.Sum(d => d.Frames), degrees)
            : None;
    }

    /// <summary>Variance in DN² of a level's mean.</summary>
    /// <param name="frames">The level's frames.</param>
    public double OfMean(double frames) => FrameDn2 / frames;
}
