using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>A frame was copied twice under two names: the pixels of a level's second frame are the first's.</summary>
internal sealed class FrameDuplicate : IFlaw
{
    public string Code => "frame-duplicate";

    public string Meaning => "well-lit bracket levels of the first ISO whose frames are the same pixels";

    public FlawSize Size => FlawSize.Count(1);

    public FlawTurn Turn => FlawTurn.Last;

    public void ChangePlan(FlawScene scene)
    {
        foreach (PlannedFrame[] level in scene.WellLitLevels((int)scene.Size))
        {
            scene.Change(level.Skip(1).Contains, frame => frame with { Exposure = level[0].Exposure });
        }
    }
}
