using SensorLab.Frames;

namespace SensorLab.Benchmarks;

/// <summary>Flat fields of 24 megapixels and 14 bits: the bytes and the noise of real frames, made quickly.</summary>
/// <remarks>
/// Noise comes from a pool of normal numbers, read from a random place for each row: not good enough to judge figures by,
/// but as hard to compress and to measure as any.
/// </remarks>
internal static class FlatFrames
{
    /// <summary>Photosites a row.</summary>
    public const int Width = 6048;

    /// <summary>Rows.</summary>
    public const int Height = 4024;

    private const int BlackDn = 512;
    private const int WhiteDn = 16_000;
    private const double ReadNoiseDn = 2.2;
    private const double ResponseSpread = 0.005;

    /// <summary>What red and blue see of what the light gives green.</summary>
    private const double RedShare = 0.55;

    private const double BlueShare = 0.7;

    private static readonly float[] Pool = MakePool(1 << 22);

    /// <summary>What a file says of itself, with filters that repeat over 2 × 2 photosites.</summary>
    public static RawFrame Frame(int iso, double exposureSeconds, int number) => Frame(iso, exposureSeconds, number, ColourFilterArray.Rggb);

    /// <summary>What a file says of itself.</summary>
    public static RawFrame Frame(int iso, double exposureSeconds, int number, ColourFilterArray filters) => new()
    {
        Metadata = new FrameMetadata
        {
            Iso = iso,
            ExposureSeconds = exposureSeconds,
            ApertureFNumber = 5.6,
            Maker = "Larkmoor",
            Model = "LM-2",
            SerialNumber = "20417",
            Firmware = "1.1",
            CaptureTime = new DateTimeOffset(2026, 3, 2, 20, 0, 0, TimeSpan.Zero).AddSeconds(10 * number),
        },
        Layout = new MosaicLayout
        {
            WidthPixels = Width,
            HeightPixels = Height,
            ActiveArea = new PixelRectangle(0, 0, Width, Height),
            ColourFilterArray = filters,
            BitDepth = 14,
        },
        Declared = new DeclaredLevels { WhiteDn = WhiteDn },
    };

    /// <summary>A frame's codes in DN, with filters that repeat over 2 × 2 photosites.</summary>
    public static ushort[] Codes(double signalDn, double electronPerDn, int seed) => Codes(signalDn, electronPerDn, seed, ColourFilterArray.Rggb);

    /// <summary>A frame's codes in DN.</summary>
    /// <param name="signalDn">Mean of the green channels over black.</param>
    /// <param name="electronPerDn">Gain.</param>
    /// <param name="seed">Another seed, other noise.</param>
    /// <param name="filters">The filters.</param>
    public static ushort[] Codes(double signalDn, double electronPerDn, int seed, ColourFilterArray filters)
    {
        var random = new Random(seed);
        var codes = new ushort[Width * Height];
        for (int row = 0; row < Height; row++)
        {
            ReadOnlySpan<float> noise = Pool.AsSpan(random.Next(Pool.Length - Width), Width);
            ReadOnlySpan<float> response = Pool.AsSpan((int)((long)row * 7919 * 101 % (Pool.Length - Width)), Width);
            Span<ushort> target = codes.AsSpan(row * Width, Width);
            for (int phase = 0; phase < filters.Columns; phase++)
            {
                float mean = (float)(signalDn * ShareOf(filters.ChannelAt(row, phase)));
                float spread = (float)Math.Sqrt((mean / electronPerDn) + (ReadNoiseDn * ReadNoiseDn));
                float fixedSpread = mean * (float)ResponseSpread;
                for (int x = phase; x < Width; x += filters.Columns)
                {
                    float code = BlackDn + 0.5f + mean + (fixedSpread * response[x]) + (spread * noise[x]);
                    target[x] = (ushort)Math.Clamp(code, 0, WhiteDn);
                }
            }
        }

        return codes;
    }

    private static double ShareOf(SensorChannel channel) => channel switch
    {
        SensorChannel.R => RedShare,
        SensorChannel.B => BlueShare,
        _ => 1,
    };

    /// <summary>Box and Muller: two independent normal numbers from two even ones.</summary>
    private static float[] MakePool(int size)
    {
        var random = new Random(24);
        var pool = new float[size];
        for (int i = 0; i < size; i += 2)
        {
            double radius = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()));
            (double sine, double cosine) = Math.SinCos(2 * Math.PI * random.NextDouble());
            pool[i] = (float)(radius * cosine);
            pool[i + 1] = (float)(radius * sine);
        }

        return pool;
    }
}
