namespace SensorLab;

/// <summary>A <c>frames.csv</c> that cannot be followed: an unknown column, a number that is none, a path that leaves the set.</summary>
public sealed class FrameTableException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="line">Line of the table, 1 for the header.</param>
    /// <param name="reason">What is wrong, in one sentence.</param>
    /// <param name="remedy">What the user can do.</param>
    /// <param name="innerException">The cause, where there is one.</param>
    public FrameTableException(int line, string reason, string remedy, Exception? innerException = null)
        : base(reason, innerException)
    {
        Line = line;
        Remedy = remedy;
    }

    /// <summary>Line of the table, 1 for the header.</summary>
    public int Line { get; }

    /// <summary>What the user can do.</summary>
    public string Remedy { get; }
}
