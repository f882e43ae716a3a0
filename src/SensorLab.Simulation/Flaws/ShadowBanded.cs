using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Flaws;

/// <summary>Rows share so much noise that bands show where the SNR is still good.</summary>
internal sealed class ShadowBanded : IFlaw
{
    public string Code => "shadow-banded";

    public string Meaning => "temporal noise that a row shares";

    public FlawSize Size => FlawSize.Electron(6);

    public VirtualBody ChangeBody(VirtualBody body, IReadOnlyList<int> isoValues, double size) => NoiseBanded.WithRowNoise(body, size);
}
