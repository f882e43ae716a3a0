using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Flaws;

/// <summary>The gain of the middle one of the rehearsal's ISOs does not lie on the others' line.</summary>
internal sealed class IsoDisagrees : IFlaw
{
    public string Code => "iso-disagrees";

    public string Meaning => "what the gain of the middle ISO is off";

    public FlawSize Size => FlawSize.Relative(0.12, 0.9);

    public VirtualBody ChangeBody(VirtualBody body, IReadOnlyList<int> isoValues, double size)
    {
        int[] rising = [.. isoValues.Order()];
        int middle = rising[rising.Length / 2];
        return body with
        {
            IsoSettings =
            [
                .. body.IsoSettings.Select(setting => setting.Iso == middle
                    ? setting with { GainElectronPerDn = setting.GainElectronPerDn * (1 + size) }
                    : setting),
            ],
        };
    }
}
