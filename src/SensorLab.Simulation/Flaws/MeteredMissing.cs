using SensorLab.Frames;

namespace SensorLab.Simulation.Flaws;

/// <summary>The metered frames were forgotten.</summary>
internal sealed class MeteredMissing : IFlaw
{
    public string Code => "metered-missing";

    public string Meaning => "ISO settings without metered frames, from the first";

    public FlawSize Size => FlawSize.Count(1);

    public void ChangePlan(FlawScene scene)
    {
        int[] isos = [.. scene.Plan.IsoValues.Take((int)scene.Size)];
        scene.Remove(frame => frame.Role == FrameRole.Metered && isos.Contains(frame.Exposure.Setting.Iso));
    }
}
