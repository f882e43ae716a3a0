namespace SensorLab.Debrief;

/// <summary>A small picture of a frame as the sensor lay, in greys, with what clipped and what sank told apart.</summary>
/// <param name="WidthPixels">Columns.</param>
/// <param name="HeightPixels">Rows.</param>
/// <param name="QuarterTurns">Quarter turns clockwise that bring it upright, 0 to 3.</param>
/// <param name="Codes">A byte a pixel, row by row: see <see cref="Clipped"/>, <see cref="Sunk"/>, <see cref="Sinking"/>.</param>
public sealed record FramePicture(int WidthPixels, int HeightPixels, int QuarterTurns, byte[] Codes)
{
    /// <summary>The code of what clipped.</summary>
    public const byte Clipped = 255;

    /// <summary>The code of what lies below SNR 4.</summary>
    public const byte Sunk = 254;

    /// <summary>From this code on, what lies below SNR 10: the grey is the code less this. Below it codes are greys themselves.</summary>
    public const byte Sinking = 160;

    /// <summary>Greys of a picture: 0 to this less one.</summary>
    public const int Greys = 160;

    /// <summary>Greys of what lies below SNR 10.</summary>
    public const int SinkingGreys = Sunk - Sinking;

    private const int LongestSide = 120;

    /// <summary>The exponent that makes the darker half of a picture seen: a screen's own, and a little more.</summary>
    private const double Gamma = 2.6;

    /// <summary>Draws a frame.</summary>
    internal static FramePicture Of(FrameCells cells, HeadroomMap map, IsoGauge gauge, float[] greens, int quarterTurns)
    {
        int step = Math.Max(1, (Math.Max(cells.Columns, cells.Rows) + LongestSide - 1) / LongestSide);
        int width = Math.Max(1, cells.Columns / step);
        int height = Math.Max(1, cells.Rows / step);
        double white = gauge.Clips.Where(c => ChannelIs(c.Channel)).Average(c => c.SaturationLinearDn);
        byte[] codes = new byte[width * height];
        for (int i = 0; i < codes.Length; i++)
        {
            codes[i] = CodeOf(i % width * step, i / width * step);
        }

        return new FramePicture(width, height, quarterTurns, codes);

        byte CodeOf(int x, int y)
        {
            (double sum, int clipped) = (0, 0);
            for (int row = y; row < y + step; row++)
            {
                for (int column = x; column < x + step; column++)
                {
                    int at = Math.Min((row * cells.Columns) + column, cells.Count - 1);
                    sum += greens[at];
                    clipped += map.IsClipped[at] ? 1 : 0;
                }
            }

            double signal = sum / (step * step);
            double grey = Math.Pow(Math.Clamp(signal / white, 0, 1), 1 / Gamma);
            return 2 * clipped >= step * step ? Clipped
                : signal < gauge.ToneDn ? Sunk
                : signal < gauge.TextureDn ? (byte)(Sinking + Math.Min(SinkingGreys - 1, (int)(grey * SinkingGreys)))
                : (byte)Math.Min(Greys - 1, (int)(grey * Greys));
        }
    }

    private static bool ChannelIs(string name) => Profiles.ChannelName.IsPooled(name);
}
