namespace SensorLab.Reports.Charts;

/// <summary>How an axis maps values to length.</summary>
internal enum AxisScale
{
    /// <summary>Equal differences, equal lengths.</summary>
    Linear,

    /// <summary>Equal ratios, equal lengths.</summary>
    Logarithmic,
}
