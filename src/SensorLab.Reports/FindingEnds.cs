namespace SensorLab.Reports;

/// <summary>Which end of the latitude a flaw touches.</summary>
internal enum FindingEnds
{
    /// <summary>Neither.</summary>
    None,

    /// <summary>The bright end.</summary>
    Bright,

    /// <summary>The shadow end.</summary>
    Shadow,

    /// <summary>Both.</summary>
    Both,
}
