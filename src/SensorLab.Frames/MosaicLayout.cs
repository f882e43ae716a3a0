namespace SensorLab.Frames;

/// <summary>The geometry of a stored mosaic. Rectangles count photosites from the top left of what is stored.</summary>
public sealed record MosaicLayout
{
    /// <summary>Stored columns, margins included.</summary>
    public required int WidthPixels { get; init; }

    /// <summary>Stored rows, margins included.</summary>
    public required int HeightPixels { get; init; }

    /// <summary>The photosites that see the lens.</summary>
    public required PixelRectangle ActiveArea { get; init; }

    /// <summary>The masked photosites (optical black), where the file says where they are.</summary>
    public IReadOnlyList<PixelRectangle> MaskedAreas { get; init; } = [];

    /// <summary>The filters, named from the active area's top left photosite.</summary>
    public required ColourFilterArray ColourFilterArray { get; init; }

    /// <summary>Bits a photosite in the file, 8 to 16.</summary>
    public required int BitDepth { get; init; }
}
