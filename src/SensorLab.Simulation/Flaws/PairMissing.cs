using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>Some bracket levels were shot once.</summary>
internal sealed class PairMissing : IFlaw
{
    public string Code => "pair-missing";

    public string Meaning => "well-lit bracket levels of the first ISO with one frame";

    public FlawSize Size => FlawSize.Count(1);

    public void ChangePlan(FlawScene scene)
    {
        PlannedFrame[] gone = [.. scene.WellLitLevels((int)scene.Size).SelectMany(level => level.Skip(1))];
        scene.Remove(gone.Contains);
    }
}
