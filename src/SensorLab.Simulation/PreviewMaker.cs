using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Writing;

namespace SensorLab.Simulation;

/// <summary>Makes a frame's preview as its body would: small, neutral, through the look in force.</summary>
internal static class PreviewMaker
{
    private const int LongestSide = 160;

    /// <summary>The preview of a frame.</summary>
    /// <param name="body">The body.</param>
    /// <param name="setting">The ISO setting.</param>
    /// <param name="look">The look.</param>
    /// <param name="codes">The frame, stored rows × stored columns.</param>
    /// <param name="layout">Its geometry.</param>
    public static JpegPreview Of(VirtualBody body, VirtualIso setting, PreviewLook look, ReadOnlySpan<ushort> codes, MosaicLayout layout)
    {
        int step = 2 * Math.Max(1, (Math.Max(layout.ActiveArea.Width, layout.ActiveArea.Height) + (2 * LongestSide) - 1) / (2 * LongestSide));
        int width = Math.Max(1, layout.ActiveArea.Width / step);
        int height = Math.Max(1, layout.ActiveArea.Height / step);
        Func<double, double> curve = look.Curve();
        double greyDn = setting.MiddleGreyElectron / setting.GainElectronPerDn;
        var picture = new byte[width * height];
        for (int i = 0; i < picture.Length; i++)
        {
            double light = NeutralDn(body, codes, layout, i / width * step, i % width * step, step) / greyDn;
            double ev = light > 0 ? Math.Log2(light) : double.NegativeInfinity;
            picture[i] = (byte)Math.Round(curve(ev));
        }

        return new JpegPreview(BaselineJpegEncoder.Encode(picture, width), width, height);
    }

    // The mean of a square's photosites, each brought to what one of sensitivity 1 would have: white balance.
    private static double NeutralDn(VirtualBody body, ReadOnlySpan<ushort> codes, MosaicLayout layout, int y, int x, int step)
    {
        double sum = 0;
        int count = 0;
        for (int row = y; row < Math.Min(y + step, layout.ActiveArea.Height); row++)
        {
            int start = ((layout.ActiveArea.Y + row) * layout.WidthPixels) + layout.ActiveArea.X;
            for (int column = x; column < Math.Min(x + step, layout.ActiveArea.Width); column++)
            {
                double sensitivity = body.ChannelSensitivity.Of(layout.ColourFilterArray.ChannelAt(row, column));
                sum += (codes[start + column] - body.BlackLevelDn) / sensitivity;
                count++;
            }
        }

        return sum / count;
    }
}
