using BenchmarkDotNet.Attributes;
using SensorLab.Frames;
using SensorLab.RawFiles.Tests.Support;

namespace SensorLab.Benchmarks;

/// <summary>Decodes a flat frame of 24 megapixels on one thread, beside LibRaw on the same file.</summary>
[MemoryDiagnoser]
public class DngDecodingBenchmark
{
    private const int Width = 6048;
    private const int Height = 4024;
    private const int Bits = 14;

    /// <summary>A flat field of 2000 DN with a noise of 60 DN: what a body of 14 bits records below middle grey.</summary>
    private const double MeanDn = 2000;

    private const double NoiseDn = 60;

    private TemporaryFile? _file;
    private ushort[] _band = [];

    /// <summary>How the frame is stored.</summary>
    [Params("uncompressed", "packed", "strip", "tiles")]
    public string Storage { get; set; } = "strip";

    /// <summary>Writes the frame.</summary>
    [GlobalSetup]
    public void Write()
    {
        var encoder = new LosslessJpegEncoder { Components = 2, Precision = Bits, Predictor = 1 };
        bool isCompressed = Storage is "strip" or "tiles";
        var dng = new TestDng
        {
            Width = Width,
            Height = Height,
            Samples = FlatField(),
            Bits = Storage == "uncompressed" ? 16 : Bits,
            Compression = isCompressed ? 7 : 1,
            Tile = Storage == "tiles" ? (256, 256) : null,
            Coder = isCompressed ? encoder.Encode : null,
        };
        _file = dng.ToFile();
    }

    /// <summary>Removes the frame.</summary>
    [GlobalCleanup]
    public void Remove() => _file?.Dispose();

    /// <summary>LibRaw's time, through its C interface.</summary>
    [Benchmark(Baseline = true)]
    public void LibRaw() => LibRawUnpacking.Unpack(_file!.Path);

    /// <summary>SensorLab's time: opened and read in bands, as a measurement reads it.</summary>
    [Benchmark]
    public int SensorLab()
    {
        using IMosaicReader reader = RawFiles.RawFileOpener.Open(_file!.Path);
        int rows = reader.PreferredRows;
        Array.Resize(ref _band, rows * Width);
        int last = 0;
        for (int row = 0; row < Height; row += rows)
        {
            Span<ushort> band = _band.AsSpan(0, Math.Min(rows, Height - row) * Width);
            reader.ReadRows(band);
            last = band[^1];
        }

        return last;
    }

    private static ushort[] FlatField()
    {
        var random = new Random(24);
        var samples = new ushort[Width * Height];
        for (int i = 0; i < samples.Length; i += 2)
        {
            // Box and Muller: two independent normal numbers.
            double radius = NoiseDn * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()));
            double angle = 2 * Math.PI * random.NextDouble();
            samples[i] = (ushort)(MeanDn + (radius * Math.Cos(angle)));
            samples[i + 1] = (ushort)(MeanDn + (radius * Math.Sin(angle)));
        }

        return samples;
    }
}
