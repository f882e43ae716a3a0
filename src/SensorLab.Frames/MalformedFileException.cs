namespace SensorLab.Frames;

/// <summary>A file is not what it says it is: truncated, damaged or hostile.</summary>
public sealed class MalformedFileException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="reason">What is wrong, in one sentence without the file's name.</param>
    /// <param name="innerException">The cause, where there is one.</param>
    public MalformedFileException(string reason, Exception? innerException = null)
        : base(reason, innerException)
    {
    }
}
