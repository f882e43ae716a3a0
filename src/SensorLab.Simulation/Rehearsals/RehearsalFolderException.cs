namespace SensorLab.Simulation.Rehearsals;

/// <summary>The folder of a rehearsal holds something that is not a rehearsal: it is left alone.</summary>
public sealed class RehearsalFolderException : IOException
{
    /// <summary>Creates the exception.</summary>
    /// <param name="reason">Which folder, and what to do.</param>
    public RehearsalFolderException(string reason)
        : base(reason)
    {
    }
}
