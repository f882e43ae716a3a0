namespace SensorLab.Frames;

/// <summary>A position of the colour filter array; nothing is averaged over channels.</summary>
public enum SensorChannel
{
    /// <summary>Red.</summary>
    R,

    /// <summary>Green in the rows of red.</summary>
    G1,

    /// <summary>Green in the rows of blue.</summary>
    G2,

    /// <summary>Blue.</summary>
    B,

    /// <summary>The one channel of a monochrome sensor.</summary>
    Y,
}
