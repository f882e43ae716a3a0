namespace SensorLab.Simulation.Rehearsals;

/// <summary>A rehearsal was asked for in words that mean nothing here: an ISO that the body lacks, an unknown flaw, an impossible size.</summary>
public sealed class RehearsalUsageException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="reason">What is off, and what would be right.</param>
    public RehearsalUsageException(string reason)
        : base(reason)
    {
    }
}
