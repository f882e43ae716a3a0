using SensorLab.Frames;

namespace SensorLab.Simulation.Flaws;

/// <summary>The maker multiplies the codes of blue: it has gaps that the others have not.</summary>
internal sealed class ChannelScaled : IFlaw
{
    public string Code => "channel-scaled";

    public string Meaning => "factor of blue's codes, less 1";

    public FlawSize Size => FlawSize.Relative(0.12, 4);

    public void ChangePlan(FlawScene scene)
    {
        double black = scene.Body.BlackLevelDn;
        double factor = 1 + scene.Size;
        int largest = scene.Body.LargestCodeDn;
        scene.Change(_ => true, frame => frame.WithEffect((codes, layout) => Scale(codes, layout, black, factor, largest)));
    }

    private static void Scale(Span<ushort> codes, MosaicLayout layout, double black, double factor, int largest)
    {
        for (int i = 0; i < codes.Length; i++)
        {
            int row = (i / layout.WidthPixels) - layout.ActiveArea.Y;
            int column = (i % layout.WidthPixels) - layout.ActiveArea.X;
            if (layout.ColourFilterArray.ChannelAt(row, column) == SensorChannel.B)
            {
                codes[i] = (ushort)Math.Clamp(Math.Floor(black + ((codes[i] - black) * factor) + 0.5), 0, largest);
            }
        }
    }
}
