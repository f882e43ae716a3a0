using SensorLab.Frames;

namespace SensorLab.Simulation.Bodies;

/// <summary>What a photosite of each channel sees of the light, relative to the most sensitive; each above 0.</summary>
public sealed record ChannelSensitivity
{
    /// <summary>Red.</summary>
    public double R { get; init; } = 0.52;

    /// <summary>Green beside red in its row; of a pattern with one kind of green, all of it.</summary>
    public double G1 { get; init; } = 1;

    /// <summary>Green beside blue in its row.</summary>
    public double G2 { get; init; } = 1;

    /// <summary>Blue.</summary>
    public double B { get; init; } = 0.64;

    /// <summary>Without filters.</summary>
    public double Y { get; init; } = 1;

    /// <summary>The sensitivity of a channel.</summary>
    /// <param name="channel">The channel.</param>
    public double Of(SensorChannel channel) => channel switch
    {
        SensorChannel.R => R,
        SensorChannel.G1 => G1,
        SensorChannel.G2 => G2,
        SensorChannel.B => B,
        _ => Y,
    };
}
