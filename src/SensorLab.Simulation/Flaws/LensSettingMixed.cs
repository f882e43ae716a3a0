namespace SensorLab.Simulation.Flaws;

/// <summary>The aperture ring was moved in the midst of the bracket, and the lamp turned up for it.</summary>
internal sealed class LensSettingMixed : IFlaw
{
    private const double StopDown = 1.4;

    public string Code => "lens-setting-mixed";

    public string Meaning => "another aperture in every second bracket level";

    public FlawSize Size => FlawSize.None;

    public void ChangePlan(FlawScene scene) => scene.ChangeEverySecondLevel(
        frame => frame.WithMetadata(said => said with { ApertureFNumber = said.ApertureFNumber * StopDown }));
}
