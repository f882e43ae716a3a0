namespace SensorLab.RawFiles.LibRaw;

/// <summary>What the name of LibRaw's decoder says of a file: how it is compressed, and whether it can be sensor data.</summary>
/// <param name="Compression">As in <see cref="SensorLab.Frames.RecordingMode"/>; null where the name does not tell.</param>
/// <param name="Unsuitable">Why it is no sensor data; null where nothing speaks against it.</param>
internal sealed record LibRawDecoder(string? Compression, string? Unsuitable = null)
{
    private const string Uncompressed = "uncompressed";
    private const string Lossless = "lossless";
    private const string Lossy = "lossy";
    private const string Demosaiced = "Its data are no mosaic any more: three samples a pixel.";
    private const string FloatingPoint = "Its data are floating point, as no sensor's converter delivers them.";

    private static readonly Dictionary<string, LibRawDecoder> ByName = new(StringComparer.Ordinal)
    {
        ["unpacked_load_raw"] = new(Uncompressed),
        ["packed_load_raw"] = new(Uncompressed),
        ["packed_dng_load_raw"] = new(Uncompressed),
        ["packed_tiled_dng_load_raw"] = new(Uncompressed),
        ["eight_bit_load_raw"] = new(Uncompressed),
        ["kodak_dc120_load_raw"] = new(Uncompressed),
        ["nokia_load_raw"] = new(Uncompressed),
        ["rollei_load_raw"] = new(Uncompressed),
        ["unpacked_load_raw_fuji_f700s20"] = new(Uncompressed),
        ["unpacked_load_raw_FujiDBP"] = new(Uncompressed),
        ["unpacked_load_raw_reversed"] = new(Uncompressed),
        ["nikon_14bit_load_raw"] = new(Uncompressed),
        ["fuji_14bit_load_raw"] = new(Uncompressed),
        ["lossless_jpeg_load_raw"] = new(Lossless),
        ["lossless_dng_load_raw"] = new(Lossless),
        ["canon_load_raw"] = new(Lossless),
        ["pentax_load_raw"] = new(Lossless),
        ["olympus_load_raw"] = new(Lossless),
        ["minolta_rd175_load_raw"] = new(Uncompressed),
        ["hasselblad_load_raw"] = new(Lossless),
        ["sony_arw2_load_raw"] = new(Lossy),
        ["kodak_radc_load_raw"] = new(Lossy),
        ["kodak_jpeg_load_raw"] = new(Lossy, "Its data are lossy JPEG."),
        ["lossy_dng_load_raw"] = new(Lossy, "Its data are lossy JPEG."),
        ["deflate_dng_load_raw"] = new("deflate", FloatingPoint),
        ["uncompressed_fp_dng_load_raw"] = new(Uncompressed, FloatingPoint),
        ["nikon_load_sraw"] = new(Lossy, Demosaiced),
        ["canon_sraw_load_raw"] = new(Lossy, Demosaiced),
        ["nikon_yuv_load_raw"] = new(Lossy, Demosaiced),
        ["sony_ycbcr_load_raw"] = new(Lossy, Demosaiced),
        ["kodak_ycbcr_load_raw"] = new(Lossy, Demosaiced),
        ["kodak_rgb_load_raw"] = new(Lossy, Demosaiced),
        ["x3f_load_raw"] = new(Lossless, "Its sensor takes three colours at each photosite, in layers."),
    };

    /// <summary>Whether every photosite takes at least a byte in the file.</summary>
    public bool TakesWholeBytes => Compression == Uncompressed;

    /// <summary>The row for a decoder's name as LibRaw tells it; an unknown name says nothing.</summary>
    /// <param name="name">The name, with or without its parentheses.</param>
    public static LibRawDecoder FromName(string name) =>
        ByName.GetValueOrDefault(name.Replace("()", "", StringComparison.Ordinal)) ?? new LibRawDecoder(null, null);
}
