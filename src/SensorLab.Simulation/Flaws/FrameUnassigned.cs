using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>Further frames that lie beside the roles' folders.</summary>
internal sealed class FrameUnassigned : IFlaw
{
    public string Code => "frame-unassigned";

    public string Meaning => "frames outside the roles' folders";

    public FlawSize Size => FlawSize.Count(1);

    public FlawTurn Turn => FlawTurn.First;

    public void ChangePlan(FlawScene scene)
    {
        foreach (PlannedFrame[] level in scene.WellLitLevels((int)scene.Size))
        {
            scene.AddLike(level[^1], frame => frame with { Role = null });
        }
    }
}
