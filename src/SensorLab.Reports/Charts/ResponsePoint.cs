using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>One level of one channel on the response chart.</summary>
/// <param name="Channel">R, G1, G2, B or Y.</param>
/// <param name="Level">The level.</param>
/// <param name="ExposureEv">The exposure by shutter and aperture, in EV from middle grey's.</param>
/// <param name="SignalDn">Mean signal above black.</param>
/// <param name="DeviationPercent">Distance from the straight line of its series in percent of the line; null where there is none.</param>
/// <param name="UncertaintyPercent">Standard uncertainty of the mean in percent of the line.</param>
/// <param name="Counts">Whether the linearity error rests on it.</param>
internal sealed record ResponsePoint(
    string Channel, LevelRecord Level, double ExposureEv, double SignalDn, double? DeviationPercent, double UncertaintyPercent, bool Counts);
