using SensorLab.Frames;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>Light leaks into the dark frames from the right, the more the longer they are.</summary>
internal sealed class DarkLit : IFlaw
{
    private const double LeakTilt = 0.8;

    public string Code => "dark-lit";

    public string Meaning => "mean signal of green in an ISO's longest dark frames";

    public FlawSize Size => FlawSize.Dn(5, 5000);

    public void ChangePlan(FlawScene scene)
    {
        foreach (int iso in scene.Plan.IsoValues)
        {
            PlannedFrame[] darks = [.. scene.FramesOf(iso).Where(frame => frame.Role == FrameRole.Dark)];
            double longest = darks.Select(frame => frame.Exposure.ExposureSeconds).DefaultIfEmpty(1).Max();
            scene.Change(darks.Contains, frame => frame with
            {
                Exposure = frame.Exposure with
                {
                    LightElectron = scene.Size * frame.Exposure.Setting.GainElectronPerDn * frame.Exposure.ExposureSeconds / longest,
                    Field = new FieldShape(0, LeakTilt),
                },
            });
        }
    }
}
