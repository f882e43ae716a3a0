namespace SensorLab.Profiles;

/// <summary>What tells the size of a part of an uncertainty.</summary>
public static class BudgetOrigin
{
    /// <summary>The frames of the set itself.</summary>
    public const string Set = "set";

    /// <summary>The protocol's typical values: an assumption.</summary>
    public const string Protocol = "protocol";

    /// <summary>Sets shot anew.</summary>
    public const string Repeats = "repeats";
}
