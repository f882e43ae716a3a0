using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>Further frames that do not say their ISO.</summary>
internal sealed class FrameIncomplete : IFlaw
{
    public string Code => "frame-incomplete";

    public string Meaning => "frames without an ISO";

    public FlawSize Size => FlawSize.Count(1);

    public FlawTurn Turn => FlawTurn.First;

    public void ChangePlan(FlawScene scene)
    {
        foreach (PlannedFrame[] level in scene.WellLitLevels((int)scene.Size))
        {
            scene.AddLike(level[^1], frame => frame.WithMetadata(said => said with { Iso = null }));
        }
    }
}
