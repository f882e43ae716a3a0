namespace SensorLab.Reports.Charts;

/// <summary>The side of the EV axis to which a bound leaves the truth open.</summary>
internal enum OpenSide
{
    /// <summary>An estimate: nothing is open.</summary>
    None,

    /// <summary>The end lies here or further into the shadows.</summary>
    Shadow,

    /// <summary>The end lies here or further into the highlights.</summary>
    Highlight,
}
