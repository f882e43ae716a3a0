using SensorLab.Frames;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>The light grows steadily from the first frame of each ISO's bracket to the last.</summary>
internal sealed class LightDrift : IFlaw
{
    public string Code => "light-drift";

    public string Meaning => "change of the light over a bracket";

    public FlawSize Size => FlawSize.Ev(0.3);

    public void ChangePlan(FlawScene scene)
    {
        foreach (int iso in scene.Plan.IsoValues)
        {
            PlannedFrame[] bracket = [.. scene.FramesOf(iso).Where(frame => frame.Role == FrameRole.Bracket)];
            scene.Change(
                bracket.Contains,
                frame => frame.WithLight(Math.Pow(2, scene.Size * Array.IndexOf(bracket, frame) / Math.Max(1, bracket.Length - 1))));
        }
    }
}
