namespace SensorLab.Profiles;

/// <summary>How much a finding weighs.</summary>
public enum FindingSeverity
{
    /// <summary>Something true that the user should know; the figures stand.</summary>
    Note,

    /// <summary>The figures stand only as far as the finding says.</summary>
    Warning,

    /// <summary>No figures: the set, or one ISO of it, is refused.</summary>
    Refusal,
}
