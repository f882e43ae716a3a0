using BenchmarkDotNet.Attributes;
using SensorLab.RawFiles.Tests.Support;

namespace SensorLab.Benchmarks;

/// <summary>Decodes a flat frame of 24 megapixels on one thread, beside LibRaw on the same file.</summary>
/// <remarks>On a machine that does other things too the fastest run counts.</remarks>
[MemoryDiagnoser]
[MinColumn]
public class DngDecodingBenchmark
{
    private const int Bits = 14;

    /// <summary>A flat field below middle grey with a noise of 60 DN: high ISO, hard to compress.</summary>
    private const double SignalDn = 2000;

    private const double ElectronPerDn = 0.56;

    private TemporaryFile? _file;

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
            Width = FlatFrames.Width,
            Height = FlatFrames.Height,
            Samples = FlatFrames.Codes(SignalDn, ElectronPerDn, seed: 1),
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
    public int SensorLab() => FrameReading.ReadAll(_file!.Path);
}
