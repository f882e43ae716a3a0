using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Flaws;

/// <summary>The highest ISO of the rehearsal is a digital push: the codes of a lower gain, multiplied.</summary>
internal sealed class GainDigital : IFlaw
{
    public string Code => "gain-digital";

    public string Meaning => "factor of the push";

    public FlawSize Size => FlawSize.Relative(2, 16, 1);

    public VirtualBody ChangeBody(VirtualBody body, IReadOnlyList<int> isoValues, double size) => body with
    {
        IsoSettings =
        [
            .. body.IsoSettings.Select(setting => setting.Iso == isoValues.Max() ? setting with { DigitalFactor = size } : setting),
        ],
    };
}
