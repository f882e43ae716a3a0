namespace SensorLab.Measurement.Figures;

/// <summary>What becomes of a figure that a finding says is off.</summary>
internal enum FigureFate
{
    /// <summary>It is left out.</summary>
    Absent,

    /// <summary>Its interval's upper end stands as an upper bound.</summary>
    AtMost,

    /// <summary>Its interval's lower end stands as a lower bound.</summary>
    AtLeast,

    /// <summary>Its uncertainty carries what the cause may have done.</summary>
    Widened,
}
