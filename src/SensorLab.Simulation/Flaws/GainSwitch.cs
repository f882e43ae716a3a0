using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Flaws;

/// <summary>A second conversion gain: from the middle of the rehearsal's ISOs on, read noise is lower than the law of the lower ones.</summary>
internal sealed class GainSwitch : IFlaw
{
    public string Code => "gain-switch";

    public string Meaning => "fraction of the read noise that the second conversion gain saves";

    public FlawSize Size => FlawSize.Relative(0.5, 0.9);

    public VirtualBody ChangeBody(VirtualBody body, IReadOnlyList<int> isoValues, double size)
    {
        int[] rising = [.. isoValues.Order()];
        int from = rising[rising.Length / 2];
        return body with
        {
            IsoSettings =
            [
                .. body.IsoSettings.Select(setting => setting.Iso >= from
                    ? setting with { ReadNoiseElectron = Math.Max((1 - size) * setting.ReadNoiseElectron, LineNoise(body)) }
                    : setting),
            ],
        };
    }

    private static double LineNoise(VirtualBody body) =>
        Math.Sqrt((body.RowNoiseElectron * body.RowNoiseElectron) + (body.ColumnNoiseElectron * body.ColumnNoiseElectron));
}
