using SensorLab.Frames;

namespace SensorLab.Simulation.Flaws;

/// <summary>The shutter's times are not the engraved ones: each bracket level is off, its frames alike.</summary>
internal sealed class ExposureInexact : IFlaw
{
    public string Code => "exposure-inexact";

    public string Meaning => "standard deviation of the levels' exposure from the nominal one";

    public FlawSize Size => FlawSize.Ev(0.06);

    public void ChangePlan(FlawScene scene)
    {
        var off = new Dictionary<(int Iso, double Seconds), double>();
        scene.Change(
            frame => frame.Role == FrameRole.Bracket,
            frame =>
            {
                (int Iso, double Seconds) level = (frame.Exposure.Setting.Iso, frame.Exposure.ExposureSeconds);
                if (!off.TryGetValue(level, out double ev))
                {
                    ev = scene.Size * scene.NextNormal();
                    off.Add(level, ev);
                }

                return frame.WithLight(Math.Pow(2, ev));
            });
    }
}
