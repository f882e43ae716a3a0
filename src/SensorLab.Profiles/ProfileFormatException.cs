namespace SensorLab.Profiles;

/// <summary>A document is not a sensor profile that this library can read.</summary>
public sealed class ProfileFormatException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="reason">What is wrong, in one sentence without the file's name.</param>
    /// <param name="remedy">What the user can do.</param>
    /// <param name="innerException">The cause, where there is one.</param>
    public ProfileFormatException(string reason, string remedy, Exception? innerException = null)
        : base(reason, innerException)
    {
        Remedy = remedy;
    }

    /// <summary>What the user can do.</summary>
    public string Remedy { get; }
}
