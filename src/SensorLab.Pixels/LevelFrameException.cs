using SensorLab.Sets;

namespace SensorLab.Pixels;

/// <summary>One frame of a level could not be read to its end; the others can be measured without it.</summary>
public sealed class LevelFrameException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="cause">Why it could not be read.</param>
    public LevelFrameException(SetFrame frame, Exception cause)
        : base(cause.Message, cause)
    {
        Frame = frame;
    }

    /// <summary>The frame that could not be read.</summary>
    public SetFrame Frame { get; }
}
