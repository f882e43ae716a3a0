using SensorLab.Frames;

namespace SensorLab.Simulation.Flaws;

/// <summary>The dark frames were forgotten.</summary>
internal sealed class DarkMissing : IFlaw
{
    public string Code => "dark-missing";

    public string Meaning => "ISO settings without dark frames, from the first";

    public FlawSize Size => FlawSize.Count(1);

    public void ChangePlan(FlawScene scene)
    {
        int[] isos = [.. scene.Plan.IsoValues.Take((int)scene.Size)];
        scene.Remove(frame => frame.Role == FrameRole.Dark && isos.Contains(frame.Exposure.Setting.Iso));
    }
}
