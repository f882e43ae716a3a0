using SensorLab.Frames;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>The light changed between the meter's reading and the last metered frame of each ISO.</summary>
internal sealed class MeteredDoubtful : IFlaw
{
    public string Code => "metered-doubtful";

    public string Meaning => "light of an ISO's last metered frame above the others'";

    public FlawSize Size => FlawSize.Ev(0.7);

    public void ChangePlan(FlawScene scene)
    {
        foreach (int iso in scene.Plan.IsoValues)
        {
            PlannedFrame? last = scene.FramesOf(iso).LastOrDefault(frame => frame.Role == FrameRole.Metered);
            scene.Change(frame => frame == last, frame => frame.WithLight(Math.Pow(2, scene.Size)));
        }
    }
}
