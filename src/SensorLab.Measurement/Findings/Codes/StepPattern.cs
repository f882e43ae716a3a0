namespace SensorLab.Measurement.Findings.Codes;

/// <summary>How the code step of an ISO behaves from level to level.</summary>
internal enum StepPattern
{
    /// <summary>The same at all levels.</summary>
    Even,

    /// <summary>Growing with the signal: a maker's curve.</summary>
    Growing,

    /// <summary>Two kinds of levels, whatever their signal: not one recording mode.</summary>
    Mixed,
}
