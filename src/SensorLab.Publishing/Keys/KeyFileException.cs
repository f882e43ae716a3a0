namespace SensorLab.Publishing.Keys;

/// <summary>A file is not the key that it should be.</summary>
public sealed class KeyFileException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="reason">What is wrong, in one sentence.</param>
    /// <param name="remedy">What the user can do.</param>
    /// <param name="innerException">The cause, where there is one.</param>
    public KeyFileException(string reason, string remedy, Exception? innerException = null)
        : base(reason, innerException) => Remedy = remedy;

    /// <summary>What the user can do.</summary>
    public string Remedy { get; }
}
