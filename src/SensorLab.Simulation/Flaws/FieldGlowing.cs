using SensorLab.Frames;
using SensorLab.Simulation.Draws;

namespace SensorLab.Simulation.Flaws;

/// <summary>The electronics beside a corner glow: light that grows with exposure time, whatever the frame sees.</summary>
internal sealed class FieldGlowing : IFlaw
{
    /// <summary>Share of the frame's diagonal over which the glow falls to 1/√e.</summary>
    private const double Reach = 0.08;

    /// <summary>Electrons below which a photosite gets none.</summary>
    private const double Least = 1e-4;

    public string Code => "field-glowing";

    public string Meaning => "glow in the lower right corner after an ISO's longest dark exposure";

    public FlawSize Size => FlawSize.Dn(30, 5000);

    public void ChangePlan(FlawScene scene)
    {
        int largest = scene.Body.LargestCodeDn;
        foreach (int iso in scene.Plan.IsoValues)
        {
            double longest = scene.FramesOf(iso).Where(frame => frame.Role == FrameRole.Dark).Select(frame => frame.Exposure.ExposureSeconds).DefaultIfEmpty(1).Max();
            scene.Change(frame => frame.Exposure.Setting.Iso == iso, frame =>
            {
                double gain = frame.Exposure.Setting.GainElectronPerDn * frame.Exposure.Setting.DigitalFactor;
                double peak = scene.Size * gain * frame.Exposure.ExposureSeconds / longest;
                ulong number = frame.Exposure.FrameNumber;
                return frame.WithEffect((codes, layout) => Glow(codes, layout, peak, gain, new RandomStream(scene.Seed, number), largest));
            });
        }
    }

    private static void Glow(Span<ushort> codes, MosaicLayout layout, double peak, double gain, RandomStream stream, int largest)
    {
        PixelRectangle active = layout.ActiveArea;
        double reach = Reach * double.Hypot(active.Width, active.Height);
        for (int y = active.Y; y < active.Bottom; y++)
        {
            for (int x = active.X; x < active.Right; x++)
            {
                double place = double.Hypot(active.Right - x, active.Bottom - y) / reach;
                double light = peak * Math.Exp(-place * place / 2);
                if (light > Least)
                {
                    ref ushort code = ref codes[(y * layout.WidthPixels) + x];
                    code = (ushort)Math.Min(largest, Math.Floor(code + (Poisson.Next(ref stream, light) / gain) + stream.NextUnit()));
                }
            }
        }
    }
}
