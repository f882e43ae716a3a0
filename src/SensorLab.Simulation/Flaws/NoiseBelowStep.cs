using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Flaws;

/// <summary>The converter's steps are coarse against the read noise.</summary>
internal sealed class NoiseBelowStep : IFlaw
{
    public string Code => "noise-below-step";

    public string Meaning => "read noise at every ISO, at most";

    public FlawSize Size => FlawSize.Dn(0.25, 0.5);

    public VirtualBody ChangeBody(VirtualBody body, IReadOnlyList<int> isoValues, double size) => body with
    {
        RowNoiseElectron = 0,
        ColumnNoiseElectron = 0,
        IsoSettings =
        [
            .. body.IsoSettings.Select(setting => setting with
            {
                ReadNoiseElectron = Math.Min(setting.ReadNoiseElectron, size * setting.GainElectronPerDn),
            }),
        ],
    };
}
