namespace SensorLab.Frames;

/// <summary>A file is sound, but SensorLab cannot measure with it.</summary>
public sealed class UnsupportedFileException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="reason">What is not supported, in one sentence without the file's name.</param>
    /// <param name="remedy">What the user can do.</param>
    /// <param name="isUnsuitable">
    /// True where the file decodes but holds no sensor data (lossy, demosaiced, noise-reduced): finding
    /// <c>frame-unsuitable</c>; false where it cannot be decoded here: finding <c>frame-unreadable</c>.
    /// </param>
    /// <param name="innerException">The cause, where there is one.</param>
    public UnsupportedFileException(string reason, string remedy, bool isUnsuitable, Exception? innerException = null)
        : base(reason, innerException)
    {
        Remedy = remedy;
        IsUnsuitable = isUnsuitable;
    }

    /// <summary>What the user can do.</summary>
    public string Remedy { get; }

    /// <summary>Whether the file decodes but holds no sensor data.</summary>
    public bool IsUnsuitable { get; }
}
