namespace SensorLab.Reports;

/// <summary>What one frame tells of the lamp.</summary>
/// <param name="Iso">Its ISO.</param>
/// <param name="Minutes">Minutes since the set's first frame; where frames have no times, their count.</param>
/// <param name="Ev">Its light against the light that its ISO was metered in, in EV.</param>
public readonly record struct LampReading(int Iso, double Minutes, double Ev);
