using SensorLab.Frames;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>Black rises as the body warms, fast at first; over the dark frames of an ISO it is the body's on the mean.</summary>
internal sealed class BlackDrift : IFlaw
{
    // The rise is 95 % done at the last frame of an ISO.
    private const double TimeConstants = 3;

    public string Code => "black-drift";

    public string Meaning => "rise of black from an ISO's first frame to its last";

    public FlawSize Size => FlawSize.Dn(3, 200);

    public void ChangePlan(FlawScene scene)
    {
        foreach (int iso in scene.Plan.IsoValues)
        {
            PlannedFrame[] frames = scene.FramesOf(iso);
            double[] rise = [.. frames.Select((_, i) => scene.Size * (1 - Math.Exp(-TimeConstants * i / Math.Max(1, frames.Length - 1))) / (1 - Math.Exp(-TimeConstants)))];
            double atDark = frames.Zip(rise).Where(pair => pair.First.Role == FrameRole.Dark).Select(pair => pair.Second).DefaultIfEmpty(0).Average();
            scene.Change(
                frames.Contains,
                frame => frame with { Exposure = frame.Exposure with { BlackShiftDn = rise[Array.IndexOf(frames, frame)] - atDark } });
        }
    }
}
