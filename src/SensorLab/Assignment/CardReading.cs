using SensorLab.Planning.Plans;

namespace SensorLab.Assignment;

/// <summary>What is known of a card beside its frames.</summary>
public sealed record CardReading
{
    /// <summary>The plan that the set was shot by; null for none.</summary>
    public ShotPlan? Plan { get; init; }

    /// <summary>Where the spot meter read zero; empty where nobody says.</summary>
    public IReadOnlyList<MeteredSetting> Metered { get; init; } = [];
}
