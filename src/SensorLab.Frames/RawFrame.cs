namespace SensorLab.Frames;

/// <summary>A raw frame without its pixels: what it says of itself, its geometry and its declared levels.</summary>
public sealed record RawFrame
{
    /// <summary>What the frame says of itself.</summary>
    public required FrameMetadata Metadata { get; init; }

    /// <summary>The geometry of the mosaic.</summary>
    public required MosaicLayout Layout { get; init; }

    /// <summary>The levels that the file declares.</summary>
    public DeclaredLevels Declared { get; init; } = new();

    /// <summary>Whether stored codes went through a table whose steps grow with the signal (a maker's curve).</summary>
    public bool IsCompanded { get; init; }
}
