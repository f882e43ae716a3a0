using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>Further frames that say of themselves that noise was reduced in them.</summary>
internal sealed class FrameUnsuitable : IFlaw
{
    private const double Applied = 0.5;

    public string Code => "frame-unsuitable";

    public string Meaning => "frames that a converter has been at, by their own account";

    public FlawSize Size => FlawSize.Count(1);

    public FlawTurn Turn => FlawTurn.First;

    public void ChangePlan(FlawScene scene)
    {
        foreach (PlannedFrame[] level in scene.WellLitLevels((int)scene.Size))
        {
            scene.AddLike(level[^1], frame => (frame with { Form = frame.Form with { NoiseReductionApplied = Applied } })
                .WithMetadata(said => said with { Mode = said.Mode with { NoiseReduction = "applied" } }));
        }
    }
}
