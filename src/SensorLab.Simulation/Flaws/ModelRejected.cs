using SensorLab.Simulation.Draws;

namespace SensorLab.Simulation.Flaws;

/// <summary>A noise that the model does not know: each pixel's response wavers from frame to frame.</summary>
internal sealed class ModelRejected : IFlaw
{
    public string Code => "model-rejected";

    public string Meaning => "temporal standard deviation of a pixel's response";

    public FlawSize Size => FlawSize.Relative(0.01, 0.2);

    public void ChangePlan(FlawScene scene)
    {
        double black = scene.Body.BlackLevelDn;
        int largest = scene.Body.LargestCodeDn;
        double deviation = scene.Size;
        scene.Change(_ => true, frame =>
        {
            ulong number = frame.Exposure.FrameNumber;
            return frame.WithEffect((codes, _) =>
            {
                var stream = new RandomStream(scene.Seed, number);
                foreach (ref ushort code in codes)
                {
                    double wavered = code + (deviation * (code - black) * Normal.Next(ref stream));
                    code = code == largest ? code : (ushort)Math.Clamp(Math.Floor(wavered + 0.5), 0, largest);
                }
            });
        });
    }
}
