namespace SensorLab.Reports;

/// <summary>Whether a sensor profile can be used.</summary>
public enum ProfileUse
{
    /// <summary>At one ISO or more both ends stand.</summary>
    Yes,

    /// <summary>There are figures, but something is in doubt at every ISO.</summary>
    OnlyWithCare,

    /// <summary>No ISO has a bright end or a shadow end.</summary>
    No,
}
