using SensorLab.Frames;

namespace SensorLab.Simulation.Scenes;

/// <summary>The colour of a surface: what it sends to each filter against a neutral surface of the same green tone.</summary>
/// <param name="Red">Factor for red, above 0.</param>
/// <param name="Blue">Factor for blue, above 0.</param>
public readonly record struct SceneColour(double Red, double Blue)
{
    /// <summary>No colour.</summary>
    public static SceneColour Neutral { get; } = new(1, 1);

    /// <summary>A clear sky's.</summary>
    public static SceneColour Sky { get; } = new(0.7, 1.35);

    /// <summary>The factor of a channel.</summary>
    /// <param name="channel">The channel.</param>
    public double Of(SensorChannel channel) => channel switch
    {
        SensorChannel.R => Red,
        SensorChannel.B => Blue,
        _ => 1,
    };
}
