namespace SensorLab.Profiles;

/// <summary>How the body recorded; null where the frames do not say.</summary>
public sealed record RecordedMode
{
    /// <summary>Bits a photosite as recorded.</summary>
    public int? BitDepth { get; init; }

    /// <summary>"uncompressed", "lossless", "deflate" or "lossy".</summary>
    public string? Compression { get; init; }

    /// <summary>Shutter type.</summary>
    public string? Shutter { get; init; }

    /// <summary>Drive mode.</summary>
    public string? Drive { get; init; }

    /// <summary>In-camera noise reduction of raw data.</summary>
    public string? NoiseReduction { get; init; }

    /// <summary>Crop of the sensor in force.</summary>
    public string? Crop { get; init; }

    /// <summary>The mode in words.</summary>
    public string? Description { get; init; }
}
