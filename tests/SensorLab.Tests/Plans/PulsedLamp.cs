using SensorLab.Planning.Plans;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Tests.Plans;

/// <summary>A filament lamp on the mains: its light rises and falls twice a period, and every row of a rolling shutter sees another stretch of it.</summary>
/// <param name="mainsHz">The mains that the lamp runs on.</param>
internal sealed class PulsedLamp(int mainsHz)
{
    /// <summary>What a filament lamp's light gains and loses in a pulse.</summary>
    private const double Ripple = 0.1;

    private const double ReadoutSeconds = 1.0 / 40;

    /// <summary>What this lamp adds to the uncertainty of middle grey, in EV: bands that stand elsewhere in each metered frame.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="iso">The ISO.</param>
    public double GreyEv(ShotPlan plan, int iso) => plan.Steps.Where(s => s.Role == "metered" && s.Iso == iso).Max(s =>
    {
        double pulses = 2 * mainsHz * Math.Pow(2, Math.Round(3 * Math.Log2(s.ExposureSeconds)) / 3);
        double amplitude = Ripple * Math.Abs(Math.Sin(Math.PI * pulses)) / (Math.PI * pulses);
        return amplitude / Math.Sqrt(2 * s.Frames) / Math.Log(2);
    });

    /// <summary>A frame as it is under this lamp.</summary>
    /// <param name="frame">The frame in steady light.</param>
    /// <param name="rows">Rows of its active area.</param>
    /// <param name="chance">Where in a pulse the shutter opens.</param>
    public PlannedFrame Lit(PlannedFrame frame, int rows, Random chance) => frame.Exposure.LightElectron == 0
        ? frame
        : frame with { Exposure = frame.Exposure with { RowLight = Rows(frame.Exposure.ExposureSeconds, rows, 2 * Math.PI * chance.NextDouble()) } };

    // Light 1 + A·sin(ωt) over the time that each row is open, the rows one after the other.
    private double[] Rows(double seconds, int rows, double phase)
    {
        double omega = 2 * Math.PI * 2 * mainsHz;
        return [.. Enumerable.Range(0, rows).Select(row =>
        {
            double start = (omega * ReadoutSeconds * row / rows) + phase;
            return 1 + (Ripple * (Math.Cos(start) - Math.Cos(start + (omega * seconds))) / (omega * seconds));
        })];
    }
}
