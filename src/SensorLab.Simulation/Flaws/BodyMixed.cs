namespace SensorLab.Simulation.Flaws;

/// <summary>Every second bracket level comes from another body of the model.</summary>
internal sealed class BodyMixed : IFlaw
{
    public string Code => "body-mixed";

    public string Meaning => "another serial number in every second bracket level";

    public FlawSize Size => FlawSize.None;

    public void ChangePlan(FlawScene scene) => scene.ChangeEverySecondLevel(
        frame => frame.WithMetadata(said => said with { SerialNumber = said.SerialNumber + "-2" }));
}
