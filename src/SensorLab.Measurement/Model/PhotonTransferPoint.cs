namespace SensorLab.Measurement.Model;

/// <summary>One level of a channel as the photon-transfer fit sees it.</summary>
/// <param name="SignalDn">Signal above black in DN.</param>
/// <param name="VarianceDn2">Temporal variance of a pixel in DN², row and column parts taken out.</param>
/// <param name="DegreesOfFreedom">Degrees of freedom of the variance.</param>
/// <param name="Values">Values that the variance rests on: pixels × frames.</param>
public readonly record struct PhotonTransferPoint(double SignalDn, double VarianceDn2, double DegreesOfFreedom, double Values)
{
    /// <summary>Variance of the signal itself in DN²: what a black that moves from frame to frame leaves in it; 0 where black stands still.</summary>
    public double SignalVarianceDn2 { get; init; }
}
