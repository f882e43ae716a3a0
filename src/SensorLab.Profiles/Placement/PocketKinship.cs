namespace SensorLab.Profiles.Placement;

/// <summary>Whose profile it is, seen from the body in hand.</summary>
public enum PocketKinship
{
    /// <summary>The body in hand.</summary>
    InHand,

    /// <summary>The body in hand by its serial number, in another state: another firmware, mode or day.</summary>
    InHandOtherState,

    /// <summary>Another body: another model or serial number.</summary>
    OtherBody,

    /// <summary>No serial number tells.</summary>
    Unknown,
}
