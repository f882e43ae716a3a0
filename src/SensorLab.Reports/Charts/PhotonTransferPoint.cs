namespace SensorLab.Reports.Charts;

/// <summary>One level of one channel on the photon-transfer chart.</summary>
/// <param name="SignalDn">Mean signal above black in DN; 0 for dark.</param>
/// <param name="VarianceDn2">Temporal variance of a pixel in DN².</param>
/// <param name="Residual">Measured variance less the profile's model, in standard uncertainties of the measured one; null without a model.</param>
/// <param name="IsDark">Whether it is a dark level.</param>
/// <param name="LeftOut">Why the fit left it out; null where the fit used it.</param>
internal readonly record struct PhotonTransferPoint(
    double SignalDn, double VarianceDn2, double? Residual, bool IsDark, string? LeftOut)
{
    /// <summary>Whether the fit used it.</summary>
    public bool UsedInFit => LeftOut is null;
}
