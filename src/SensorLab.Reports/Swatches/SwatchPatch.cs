using SkiaSharp;

namespace SensorLab.Reports.Swatches;

/// <summary>A patch as grey codes for a screen or a print of eight bits (sRGB, IEC 61966-2-1; middle grey at 18 % of white).</summary>
/// <remarks>
/// Eight bits round and black cuts off, and both would change what is shown. So mean and noise of the written codes, turned back
/// into light, are brought to the tone's own. Noise under half a code cannot be: the patch keeps its tone and is marked.
/// </remarks>
internal sealed class SwatchPatch
{
    /// <summary>Middle grey over white.</summary>
    public const double GreyLight = 0.18;

    /// <summary>The largest error of a patch's mean, as a share of it.</summary>
    private const double MeanTolerance = 0.004;

    /// <summary>The largest error of a patch's noise, as a share of it.</summary>
    private const double NoiseTolerance = 0.005;

    private const double SettledMean = 0.0005;
    private const int MostRounds = 60;
    private const int Halvings = 24;
    private const int Codes = 256;

    // What two codes side by side can mix to hold less noise than this.
    private const double SafeShare = 0.9;

    private static readonly double[] LightOf = [.. Enumerable.Range(0, Codes).Select(c => Light(c / (Codes - 1.0)))];

    private SwatchPatch(int width, int height, byte[] grey, bool isCoarse) => (Width, Height, Grey, IsCoarse) = (width, height, grey, isCoarse);

    /// <summary>Columns.</summary>
    public int Width { get; }

    /// <summary>Rows.</summary>
    public int Height { get; }

    /// <summary>Codes, row by row.</summary>
    public byte[] Grey { get; }

    /// <summary>Whether the noise is finer than the steps of eight bits: it is then not the body's.</summary>
    public bool IsCoarse { get; }

    /// <summary>Light of a code over white's.</summary>
    /// <param name="code">The code.</param>
    public static double LightOfCode(byte code) => LightOf[code];

    /// <summary>Draws a patch.</summary>
    /// <param name="tone">The tone.</param>
    /// <param name="light">The light at which it is shown, over white's: the tone's own, or what it is lifted to.</param>
    /// <param name="model">The swatch, for what neighbours share.</param>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    /// <param name="seed">Which of all equally likely patches.</param>
    public static SwatchPatch Draw(SwatchTone tone, double light, SwatchModel model, int width, int height, int seed)
    {
        (double[] pixels, double[] lines) = SwatchField.Of(tone, model, width, height, seed);
        var codes = new byte[pixels.Length];
        bool isMatched = Nudged(light, tone.Noise) is { } target && IsMatched(codes, pixels, lines, target, light, tone.Noise * light);
        if (!isMatched)
        {
            KeepTone(codes, pixels, lines, light);
        }

        return new SwatchPatch(width, height, codes, isCoarse: !isMatched);
    }

    /// <summary>The patch as PNG of eight bits.</summary>
    public byte[] Png()
    {
        using SKImage image = Image();
        using SKPixmap pixels = image.PeekPixels();
        using SKData data = pixels.Encode(new SKPngEncoderOptions(SKPngEncoderFilterFlags.None, 6)) ?? throw new InvalidOperationException("The PNG encoder gave nothing.");
        return data.ToArray();
    }

    /// <summary>The patch as an image.</summary>
    /// <returns>An image that the caller disposes of.</returns>
    public SKImage Image() => SKImage.FromPixelCopy(new SKImageInfo(Width, Height, SKColorType.Gray8, SKAlphaType.Opaque), Grey, Width);

    // Mean and noise both, by turns.
    private static bool IsMatched(byte[] codes, double[] pixels, double[] lines, double target, double light, double wanted)
    {
        (double offset, double scale) = (target, light);
        for (int round = 0; round < MostRounds; round++)
        {
            (double mean, double deviation) = Encode(codes, pixels, lines, offset, scale, light);
            if (Math.Abs(mean - target) < SettledMean * light && Math.Abs(deviation - wanted) < NoiseTolerance * wanted)
            {
                return true;
            }

            offset += target - mean;
            scale *= deviation > 0 ? Math.Clamp(wanted / deviation, 0.7, 1.4) : 1;
        }

        return false;
    }

    // The mean alone: it rises with the offset.
    private static void KeepTone(byte[] codes, double[] pixels, double[] lines, double light)
    {
        (double low, double high) = (light - (2 * SlopeAt(light)), light + (2 * SlopeAt(light)));
        for (int round = 0; round < Halvings; round++)
        {
            double middle = (low + high) / 2;
            (low, high) = Encode(codes, pixels, lines, middle, light, light).Mean < light ? (middle, high) : (low, middle);
        }
    }

    // A mean between two codes is a mixture of them, which has noise of its own: a mean near a code has less. Null where even that is too much.
    private static double? Nudged(double light, double noise)
    {
        const int Steps = 40;
        double deviation = noise * light / SlopeAt(light);
        foreach (int step in Enumerable.Range(0, (2 * Steps) + 1).Select(s => (s % 2 == 0 ? 1 : -1) * ((s + 1) / 2)))
        {
            double candidate = light * (1 + (MeanTolerance * 0.8 * step / Steps));
            double share = Code(candidate) - Math.Floor(Code(candidate));
            if (share * (1 - share) <= SafeShare * deviation * deviation)
            {
                return candidate;
            }
        }

        return null;
    }

    private static (double Mean, double Deviation) Encode(byte[] codes, double[] pixels, double[] lines, double offset, double scale, double light)
    {
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < codes.Length; i++)
        {
            byte code = (byte)Math.Clamp(Math.Round(Code(offset + (scale * pixels[i]) + (light * lines[i]))), 0, Codes - 1);
            codes[i] = code;
            sum += LightOf[code];
            squares += LightOf[code] * LightOf[code];
        }

        double mean = sum / codes.Length;
        return (mean, Math.Sqrt(Math.Max(0, (squares / codes.Length) - (mean * mean))));
    }

    // sRGB, IEC 61966-2-1.
    private static double Light(double value) => value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4);

    private static double Code(double light) => (Codes - 1) * (light <= 0.0031308 ? 12.92 * light : (1.055 * Math.Pow(light, 1 / 2.4)) - 0.055);

    private static double SlopeAt(double light) => Light((Code(light) + 0.5) / (Codes - 1)) - Light((Code(light) - 0.5) / (Codes - 1));
}
