using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Flaws;

/// <summary>The sensor is warm.</summary>
internal sealed class DarkCurrent : IFlaw
{
    public string Code => "dark-current";

    public string Meaning => "electrons a second without light";

    public FlawSize Size => FlawSize.Electron(10);

    public VirtualBody ChangeBody(VirtualBody body, IReadOnlyList<int> isoValues, double size) =>
        body with { DarkCurrentElectronPerSecond = size };
}
