namespace SensorLab.Retest;

/// <summary>In what a difference and its margin are counted.</summary>
public enum MarginUnit
{
    /// <summary>Share of the figure before: (after − before) / before.</summary>
    Relative,

    /// <summary>Stops: after − before of figures in EV, log2(after / before) of signals.</summary>
    Ev,

    /// <summary>Raw code values: after − before.</summary>
    Dn,
}
