namespace SensorLab.Retest;

/// <summary>What makes two sets of an unchanged body differ: each an independent part of a difference's uncertainty.</summary>
internal enum DifferenceCause
{
    /// <summary>The noise of the earlier set.</summary>
    NoiseBefore,

    /// <summary>The noise of the later set.</summary>
    NoiseAfter,

    /// <summary>Set-up and temperature: what moves from set to set, the meter apart.</summary>
    SetToSet,

    /// <summary>Where inside its zero the meter was read.</summary>
    Meter,
}
