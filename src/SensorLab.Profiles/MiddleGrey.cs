namespace SensorLab.Profiles;

/// <summary>How middle grey was defined.</summary>
public sealed record MiddleGrey
{
    /// <summary>One of <see cref="GreyMethodName"/>.</summary>
    public required string Method { get; init; }

    /// <summary>The meter's step in EV; null where no meter was used.</summary>
    public double? MeterStepEv { get; init; }

    /// <summary>The meter's part of the uncertainty in EV, published apart; the worst ISO's.</summary>
    public double? MeterStandardUncertaintyEv { get; init; }

    /// <summary>Independent meter readings; the worst ISO's.</summary>
    public int? Readings { get; init; }
}
