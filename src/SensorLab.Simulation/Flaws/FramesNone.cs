namespace SensorLab.Simulation.Flaws;

/// <summary>The folder is empty.</summary>
internal sealed class FramesNone : IFlaw
{
    public string Code => "frames-none";

    public string Meaning => "no frame at all";

    public FlawSize Size => FlawSize.None;

    public void ChangePlan(FlawScene scene) => scene.Remove(_ => true);
}
