namespace SensorLab;

/// <summary>An option does not fit the frames: a region or a spot outside the sensor, for example.</summary>
public sealed class CharacterisationOptionsException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="option">The option as the command line names it, for example <c>--region</c>.</param>
    /// <param name="reason">What does not fit, in one sentence.</param>
    /// <param name="remedy">What the user can do.</param>
    public CharacterisationOptionsException(string option, string reason, string remedy)
        : base(reason)
    {
        Option = option;
        Remedy = remedy;
    }

    /// <summary>The option as the command line names it.</summary>
    public string Option { get; }

    /// <summary>What the user can do.</summary>
    public string Remedy { get; }
}
