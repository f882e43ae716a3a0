using SensorLab.Frames;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>The bracket stops above the shadow end.</summary>
internal sealed class ShadowNotReached : IFlaw
{
    public string Code => "shadow-not-reached";

    public string Meaning => "how far the darkest bracket level lies above green's SNR 10, at least";

    public FlawSize Size => FlawSize.Ev(0.7);

    public void ChangePlan(FlawScene scene) => scene.Remove(frame =>
    {
        var law = new SensorLaw(scene.Body, frame.Exposure.Setting);
        double least = (law.ElectronAtSnr(10) ?? 0) / law.GreenSensitivity * Math.Pow(2, scene.Size);
        return frame.Role == FrameRole.Bracket && frame.Exposure.LightElectron < least;
    });
}
