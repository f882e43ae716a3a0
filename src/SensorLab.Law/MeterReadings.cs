using SensorLab.Profiles;

namespace SensorLab.Law;

/// <summary>The readings of the spot meter that an ISO's metered frames stand for.</summary>
internal static class MeterReadings
{
    /// <summary>How many were taken, 1 or more.</summary>
    /// <param name="iso">The ISO's profile.</param>
    public static int Count(IsoProfile iso) => Math.Max(1, iso.MeterReadings ?? 1);

    /// <summary>Each reading's signal as log2 of DN, the channels' mean; readings at the same settings are one.</summary>
    /// <param name="iso">The ISO's profile.</param>
    public static IEnumerable<double> Ev(IsoProfile iso) => iso.Levels
        .Where(l => l.Role == RoleName.Metered)
        .GroupBy(l => (l.ExposureSeconds, l.ApertureFNumber, l.LightStep))
        .Select(reading => reading.Average(l => SignalEv(iso, l)))
        .Where(double.IsFinite);

    /// <summary>log2 of a level's signal in DN where the meter looks, the channels' mean; NaN at or below black.</summary>
    /// <param name="iso">The ISO's profile.</param>
    /// <param name="level">One of its levels.</param>
    public static double SignalEv(IsoProfile iso, LevelRecord level) => iso.Channels.Average(c =>
    {
        LevelChannel? own = level.Channels.FirstOrDefault(l => l.Name == c.Name);
        double signal = (own?.SpotMeanDn ?? own?.MeanDn ?? double.NaN) - (c.BlackLevelDn?.Value ?? double.NaN);
        return signal > 0 ? Math.Log2(signal) : double.NaN;
    });
}
