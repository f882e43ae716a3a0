using SensorLab.Frames;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>The bracket stops below the clip.</summary>
internal sealed class SaturationNotReached : IFlaw
{
    public string Code => "saturation-not-reached";

    public string Meaning => "what the brightest bracket level lacks to the first channel's saturation, at least";

    public FlawSize Size => FlawSize.Ev(0.5);

    public void ChangePlan(FlawScene scene) => scene.Remove(frame =>
    {
        var law = new SensorLaw(scene.Body, frame.Exposure.Setting);
        double most = law.SaturatingElectron / law.LargestSensitivity * Math.Pow(2, -scene.Size);
        return frame.Role == FrameRole.Bracket && frame.Exposure.LightElectron > most;
    });
}
