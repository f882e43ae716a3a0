using SensorLab.Profiles;

namespace SensorLab.Measurement.Noise;

/// <summary>What a black that moves from frame to frame leaves in lit levels.</summary>
/// <param name="FrameDn2">Variance of one frame's black in DN²; 0 where black stands still.</param>
/// <param name="DarkFrames">Dark frames that black was taken from.</param>
public readonly record struct BlackDrift(double FrameDn2, int DarkFrames)
{
    /// <summary>Degrees of freedom of the variance: it rests on the dark frames' scatter.</summary>
    public double DegreesOfFreedom => FrameDn2 > 0 ? DarkFrames - 1 : double.PositiveInfinity;

    /// <summary>The drift that dark frames show.</summary>
    /// <param name="darks">Dark levels of one ISO.</param>
    public static BlackDrift Of(IReadOnlyList<LevelRecord> darks) =>
        BlackMoments.Scatter(darks) is { IsDrift: true } scatter ? new BlackDrift(scatter.ExcessDn2, scatter.Frames) : default;

    /// <summary>Variance in DN² of a level's mean.</summary>
    /// <param name="frames">The level's frames.</param>
    public double OfMean(int frames) => FrameDn2 / frames;

    /// <summary>Variance in DN² of a lit level's signal, black's own error included.</summary>
    /// <param name="frames">The level's frames.</param>
    public double OfSignal(int frames) => FrameDn2 > 0 ? OfMean(frames) + OfMean(DarkFrames) : 0;
}
