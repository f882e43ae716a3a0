namespace SensorLab.Simulation.Flaws;

/// <summary>Files hold no preview.</summary>
internal sealed class PreviewMissing : IFlaw
{
    public string Code => "preview-missing";

    public string Meaning => "no previews";

    public FlawSize Size => FlawSize.None;

    public void ChangePlan(FlawScene scene) => scene.Change(_ => true, frame => frame with { Look = null });
}
