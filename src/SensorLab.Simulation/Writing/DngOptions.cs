namespace SensorLab.Simulation.Writing;

/// <summary>The form in which a frame is written as DNG.</summary>
public sealed record DngOptions
{
    /// <summary>Lossless JPEG in tiles, as bodies and converters write it; it holds frames of any size.</summary>
    public static DngOptions LosslessTiles => new() { Compression = DngCompression.Lossless, Tile = (256, 256) };

    /// <summary>Deflate in tiles; it holds frames of any size.</summary>
    public static DngOptions DeflateTiles => new() { Compression = DngCompression.Deflate, Tile = (256, 256) };

    /// <summary>Bits a sample takes in the file: 16, or 8, 10, 12 or 14 packed without gaps (rows begin on a byte).</summary>
    public int BitsPerSample { get; init; } = 16;

    /// <summary>Width and height of tiles in photosites, multiples of 16; null for strips.</summary>
    public (int Width, int Height)? Tile { get; init; }

    /// <summary>Rows a strip; null for one strip.</summary>
    public int? RowsPerStrip { get; init; }

    /// <summary>How the samples are compressed.</summary>
    public DngCompression Compression { get; init; }

    /// <summary>How lossless JPEG is used, where it is.</summary>
    public LosslessJpegForm LosslessJpeg { get; init; } = new();

    /// <summary>Whether numbers are written with the most significant byte first.</summary>
    public bool IsBigEndian { get; init; }

    /// <summary>Whether the mosaic lies in a sub-directory behind a small preview, as many bodies write it.</summary>
    public bool IsBehindPreview { get; init; }

    /// <summary>Linear codes, ascending, by what the file stores (the tag LinearizationTable); null where it stores the codes themselves.</summary>
    public ushort[]? LinearisationTable { get; init; }

    /// <summary>The tag NoiseReductionApplied, 0 to 1; null where the file says nothing.</summary>
    public double? NoiseReductionApplied { get; init; }
}
