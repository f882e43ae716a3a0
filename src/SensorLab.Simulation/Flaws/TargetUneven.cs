namespace SensorLab.Simulation.Flaws;

/// <summary>The field falls off towards the corners.</summary>
internal sealed class TargetUneven : IFlaw
{
    public string Code => "target-uneven";

    public string Meaning => "light missing in the corners";

    public FlawSize Size => FlawSize.Relative(0.3);

    public void ChangePlan(FlawScene scene) => scene.Change(
        frame => frame.Exposure.LightElectron > 0,
        frame => frame with { Exposure = frame.Exposure with { Field = frame.Exposure.Field with { CornerLossFraction = scene.Size } } });
}
