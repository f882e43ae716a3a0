namespace SensorLab.Retest.Confirm;

/// <summary>What a check of a job's frames against a profile comes to.</summary>
public enum ConfirmVerdict
{
    /// <summary>The frames agree with the profile.</summary>
    Consistent,

    /// <summary>They differ from it.</summary>
    Different,

    /// <summary>They do not tell.</summary>
    Undecided,
}
