using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Flaws;

/// <summary>Rows share noise, anew in every frame; read noise grows by it.</summary>
internal sealed class NoiseBanded : IFlaw
{
    public string Code => "noise-banded";

    public string Meaning => "temporal noise that a row shares";

    public FlawSize Size => FlawSize.Electron(1);

    public VirtualBody ChangeBody(VirtualBody body, IReadOnlyList<int> isoValues, double size) => WithRowNoise(body, size);

    /// <summary>A body with row noise on top of what it has.</summary>
    internal static VirtualBody WithRowNoise(VirtualBody body, double rowElectron) => body with
    {
        RowNoiseElectron = Math.Sqrt((body.RowNoiseElectron * body.RowNoiseElectron) + (rowElectron * rowElectron)),
        IsoSettings =
        [
            .. body.IsoSettings.Select(setting => setting with
            {
                ReadNoiseElectron = Math.Sqrt((setting.ReadNoiseElectron * setting.ReadNoiseElectron) + (rowElectron * rowElectron)),
            }),
        ],
    };
}
