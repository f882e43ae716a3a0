using SensorLab.Frames;

namespace SensorLab.RawFiles.LibRaw;

/// <summary>What the name of LibRaw's decoder says of a file: how it is compressed, and whether it can be sensor data.</summary>
/// <param name="Compression">As in <see cref="RecordingMode.Compression"/>; null where the name does not tell.</param>
/// <param name="Unsuitable">Why it is no sensor data; null where nothing speaks against it.</param>
/// <remarks>
/// The names are LibRaw's function names (libraw_unpack_function_name); only the parts of them that name a
/// kind of coding are read, the first that fits. A name without such a part says nothing.
/// </remarks>
internal sealed record LibRawDecoder(string? Compression, string? Unsuitable = null)
{
    private const string Uncompressed = "uncompressed";
    private const string Lossless = "lossless";
    private const string Lossy = "lossy";
    private const string LossyJpeg = "Its data are lossy JPEG, which alters the noise.";
    private const string LossyCoder = "Its data are compressed with loss, which alters the noise.";
    private const string SeveralSamples = "Its data are no mosaic any more: three samples a pixel.";
    private const string FloatingPoint = "Its data are floating point, as no sensor's converter delivers them.";

    private static readonly (string Part, LibRawDecoder Meaning)[] Parts =
    [
        ("lossy_dng", new(Lossy, LossyJpeg)),
        ("deflate_dng", new("deflate", FloatingPoint)),
        ("_fp_dng", new(Uncompressed, FloatingPoint)),
        ("lossless", new(Lossless)),
        ("unpacked", new(Uncompressed)),
        ("packed", new(Uncompressed)),
        ("eight_bit", new(Uncompressed)),
        ("14bit", new(Uncompressed)),
        ("arw2", new(Lossy, LossyCoder)),
        ("radc", new(Lossy, LossyCoder)),
        ("sraw", new(Lossy, SeveralSamples)),
        ("ycbcr", new(Lossy, SeveralSamples)),
        ("_yuv", new(Lossy, SeveralSamples)),
        ("_rgb", new(Lossy, SeveralSamples)),
        ("x3f", new(null, "Its sensor takes three colours at each photosite, in layers.")),
        ("jpeg", new(Lossy, LossyJpeg)),
    ];

    /// <summary>Whether every photosite takes at least a byte in the file.</summary>
    public bool TakesWholeBytes => Compression == Uncompressed;

    /// <summary>What a decoder's name says.</summary>
    /// <param name="name">The name as LibRaw tells it.</param>
    public static LibRawDecoder FromName(string name) =>
        Parts.FirstOrDefault(p => name.Contains(p.Part, StringComparison.Ordinal)).Meaning ?? new LibRawDecoder(null, null);
}
