namespace SensorLab.Planning.Plans;

/// <summary>What is expected of a green photosite at one ISO.</summary>
/// <param name="Iso">The ISO.</param>
/// <param name="GreyElectron">Its signal at middle grey in e⁻.</param>
/// <param name="GainElectronPerDn">Gain in e⁻/DN.</param>
/// <param name="ReadNoiseElectron">Read noise in e⁻.</param>
/// <param name="SaturationElectron">Saturation in e⁻.</param>
/// <param name="PrnuFraction">PRNU as a share of the signal.</param>
/// <param name="DsnuElectron">DSNU in e⁻.</param>
/// <param name="IsKnown">Whether it comes from a measurement at this ISO, or from typical figures for all ISOs.</param>
internal sealed record SensorExpectation(
    int Iso,
    double GreyElectron,
    double GainElectronPerDn,
    double ReadNoiseElectron,
    double SaturationElectron,
    double PrnuFraction,
    double DsnuElectron,
    bool IsKnown)
{
    /// <summary>Temporal variance without light in e⁻², rounding to whole codes included.</summary>
    public double DarkVarianceElectron2 => (ReadNoiseElectron * ReadNoiseElectron) + (GainElectronPerDn * GainElectronPerDn / 12);

    /// <summary>The signal in e⁻ at which total SNR of one pixel is a criterion; null where the fixed pattern keeps it below.</summary>
    /// <param name="snr">The criterion, above 0.</param>
    public double? ElectronAtSnr(double snr) => ElectronAtSnr(snr, 1, DarkVarianceElectron2, PrnuFraction * PrnuFraction, DsnuElectron * DsnuElectron);

    /// <summary>The positive root of S²(1 − q²ρ²) = q²(σ² + δ² + kS).</summary>
    internal static double? ElectronAtSnr(double snr, double slope, double variance, double prnuSquare, double dsnuSquare)
    {
        double square = snr * snr;
        double lead = 1 - (square * prnuSquare);
        double linear = square * slope;
        return lead > 0 ? (linear + Math.Sqrt((linear * linear) + (4 * lead * square * (variance + dsnuSquare)))) / (2 * lead) : null;
    }
}
