using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>The lamp pulses at twice the mains' frequency while the shutter rolls over the rows: each row sees another stretch of it.</summary>
internal sealed class LightBanded : IFlaw
{
    private const double PulsesPerSecond = 100;
    private const double ReadoutSeconds = 1.0 / 40;

    public string Code => "light-banded";

    public string Meaning => "amplitude of the lamp's pulses about its mean";

    public FlawSize Size => FlawSize.Relative(0.2, 1);

    public void ChangePlan(FlawScene scene) => scene.Change(
        frame => frame.Exposure.LightElectron > 0,
        frame => frame with { Exposure = frame.Exposure with { RowLight = Rows(scene, frame) } });

    // The mean of 1 + A·sin(ωt) over the time that a row is open.
    private static double[] Rows(FlawScene scene, PlannedFrame frame)
    {
        double omega = 2 * Math.PI * PulsesPerSecond;
        double open = frame.Exposure.ExposureSeconds;
        double phase = 2 * Math.PI * scene.NextUnit();
        var rows = new double[scene.Body.HeightPixels];
        for (int row = 0; row < rows.Length; row++)
        {
            double start = (omega * ReadoutSeconds * row / rows.Length) + phase;
            double pulse = (Math.Cos(start) - Math.Cos(start + (omega * open))) / (omega * open);
            rows[row] = 1 + (scene.Size * pulse);
        }

        return rows;
    }
}
