namespace SensorLab.Cli;

/// <summary>What the program tells the shell; fixed by the contract.</summary>
internal static class ExitStatus
{
    /// <summary>Done; findings may be in the result.</summary>
    public const int Done = 0;

    /// <summary>A fault of the program itself.</summary>
    public const int ProgramFault = 1;

    /// <summary>The command's words are off.</summary>
    public const int Usage = 2;

    /// <summary>No answer can be given.</summary>
    public const int Refused = 3;

    /// <summary>An input or output could not be read, is not what it should be, or could not be written.</summary>
    public const int File = 4;

    /// <summary><c>retest</c>: changed; <c>confirm</c>: different.</summary>
    public const int Changed = 5;

    /// <summary><c>retest</c>, <c>confirm</c>: undecided.</summary>
    public const int Undecided = 6;

    /// <summary><c>verify</c>: not valid.</summary>
    public const int NotValid = 7;

    /// <summary>Cancelled; nothing half-written is left.</summary>
    public const int Cancelled = 130;
}
