namespace SensorLab.Frames;

/// <summary>A position of the colour filter array; nothing is averaged over channels.</summary>
public enum SensorChannel
{
    /// <summary>Red.</summary>
    R,

    /// <summary>Green beside red in its row; of a pattern with one kind of green, all of it.</summary>
    G1,

    /// <summary>Green beside blue in its row.</summary>
    G2,

    /// <summary>Blue.</summary>
    B,

    /// <summary>The one channel of a monochrome sensor.</summary>
    Y,
}
