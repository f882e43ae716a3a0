namespace SensorLab.Simulation.Flaws;

/// <summary>The files went through a converter that put its own name where the firmware stood.</summary>
internal sealed class FirmwareUnknown : IFlaw
{
    public string Code => "firmware-unknown";

    public string Meaning => "a converter's name in place of the firmware";

    public FlawSize Size => FlawSize.None;

    public void ChangePlan(FlawScene scene) => scene.Change(
        _ => true,
        frame => frame.WithMetadata(said => said with { Firmware = "Skerry DNG Converter 4.2", FirmwareIsConverter = true }));
}
