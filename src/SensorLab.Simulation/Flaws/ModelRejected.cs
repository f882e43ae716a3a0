using SensorLab.Simulation.Draws;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>A noise that the model does not know: each pixel's response wavers from frame to frame; what is full stays full.</summary>
internal sealed class ModelRejected : IFlaw
{
    /// <summary>Deviations of the noise without light about saturation, within which a code is a full photosite's.</summary>
    private const double FullDeviations = 5;

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
            var law = new SensorLaw(scene.Body, frame.Exposure.Setting);
            double most = black + law.SaturationDn;
            double full = Math.Min(largest, most - (FullDeviations * Math.Sqrt(law.DarkVariance) / frame.Exposure.Setting.GainElectronPerDn));
            return frame.WithEffect((codes, _) =>
            {
                var stream = new RandomStream(scene.Seed, number);
                foreach (ref ushort code in codes)
                {
                    double wavered = code + (deviation * (code - black) * Normal.Next(ref stream));
                    code = code >= full ? code : (ushort)Math.Clamp(Math.Floor(Math.Min(wavered, most) + 0.5), 0, largest);
                }
            });
        });
    }
}
