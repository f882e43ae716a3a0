namespace SensorLab.Profiles.Placement;

/// <summary>Whether a scene fits between the deepest textured shadow and the brightest textured placement.</summary>
public sealed record SceneFit
{
    /// <summary>Whether an exposure exists that holds both ends; null where a bound leaves it open.</summary>
    public bool? Fits { get; init; }

    /// <summary>
    /// The room left over in EV, negative where the scene is too long. Both ends hang on one meter zero, so the meter's
    /// uncertainty is not in it; covariance of the two ends is neglected, which errs on the wide side.
    /// </summary>
    public Figure? RoomEv { get; init; }

    /// <summary>
    /// How far to change the exposure from the one that was metered, in EV, positive for more light: the smallest change
    /// that holds both ends; where the scene does not fit, the one that holds the bright end. Null where an end is not known.
    /// </summary>
    public double? ExposureShiftEv { get; init; }

    /// <summary>The least exposure change that holds the dark end.</summary>
    public double? LowestShiftEv { get; init; }

    /// <summary>The greatest exposure change that holds the bright end.</summary>
    public double? HighestShiftEv { get; init; }
}
