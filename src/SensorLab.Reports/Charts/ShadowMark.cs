namespace SensorLab.Reports.Charts;

/// <summary>Where total SNR falls to a criterion, on the EV axis.</summary>
/// <param name="Snr">The criterion.</param>
/// <param name="Mark">Its place; null where the criterion is never met or was not measured.</param>
internal readonly record struct ShadowMark(double Snr, EvMark? Mark)
{
    /// <summary>The criterion that is meant where none is named.</summary>
    public const double DefaultSnr = 10;

    /// <summary>Whether this is the criterion that is meant where none is named.</summary>
    public bool IsDefault => Snr == DefaultSnr;
}
