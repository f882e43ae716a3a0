namespace SensorLab.Simulation.Flaws;

/// <summary>The firmware was updated in the midst of the set.</summary>
internal sealed class FirmwareMixed : IFlaw
{
    public string Code => "firmware-mixed";

    public string Meaning => "another firmware in every second bracket level";

    public FlawSize Size => FlawSize.None;

    public void ChangePlan(FlawScene scene) => scene.ChangeEverySecondLevel(
        frame => frame.WithMetadata(said => said with { Firmware = said.Firmware + ".9" }));
}
