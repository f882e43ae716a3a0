using SensorLab.Profiles;

namespace SensorLab.Planning.Plans;

/// <summary>What a set shot by the plan should give at one ISO: the expected figures with the uncertainties and budgets that they will carry.</summary>
/// <param name="Iso">The ISO.</param>
/// <param name="GainElectronPerDn">Gain of a green channel.</param>
/// <param name="ReadNoiseElectron">Read noise of a green channel.</param>
/// <param name="AboveEv">Latitude above middle grey; null where the clip is not reached.</param>
/// <param name="BelowEv">Stops below it down to SNR 10, greens pooled.</param>
/// <param name="MeterStandardUncertaintyEv">What the meter's step adds on location.</param>
public sealed record PlanPrediction(
    int Iso, Figure GainElectronPerDn, Figure ReadNoiseElectron, Figure? AboveEv, Figure? BelowEv, double MeterStandardUncertaintyEv);
