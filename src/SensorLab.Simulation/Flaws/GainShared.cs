using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Flaws;

/// <summary>The two highest ISOs of the rehearsal are one sensor setting that the meter alone tells apart.</summary>
internal sealed class GainShared : IFlaw
{
    public string Code => "gain-shared";

    public string Meaning => "the highest ISO has the gain and noise of the next lower one";

    public FlawSize Size => FlawSize.None;

    public VirtualBody ChangeBody(VirtualBody body, IReadOnlyList<int> isoValues, double size)
    {
        int[] highest = [.. isoValues.OrderDescending()];
        if (highest.Length < 2)
        {
            throw new Rehearsals.RehearsalUsageException("The flaw gain-shared needs two ISO settings.");
        }

        VirtualIso lower = body.At(highest[1]);
        double grey = body.At(highest[0]).MiddleGreyElectron;
        return body with
        {
            IsoSettings =
            [
                .. body.IsoSettings.Select(setting => setting.Iso == highest[0] ? lower with { Iso = setting.Iso, MiddleGreyElectron = grey } : setting),
            ],
        };
    }
}
