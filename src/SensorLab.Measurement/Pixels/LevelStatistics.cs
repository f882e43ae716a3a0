using SensorLab.Law;
using SensorLab.Measurement.Field;
using SensorLab.Measurement.Sets;

namespace SensorLab.Measurement.Pixels;

/// <summary>The statistics of one level, from one pass over the pixels of all its frames.</summary>
/// <param name="Level">The level.</param>
/// <param name="Channels">One entry a channel, in the order of the colour filter array's channels.</param>
/// <param name="PixelHashes">A 64-bit hash of each frame, of rows all over the active area and of exact sums over the region: equal for frames with the same pixels.</param>
/// <param name="Field">The first frame's whole field, the parts outside the region included.</param>
public sealed record LevelStatistics(Level Level, IReadOnlyList<ChannelStatistics> Channels, IReadOnlyList<ulong> PixelHashes, FieldMap Field)
{
    /// <summary>Where it was measured.</summary>
    public required MeasurementArea Area { get; init; }

    /// <summary>Mean of each channel's masked photosites in DN, all frames together, in the channels' order; null or empty without such.</summary>
    internal IReadOnlyList<Estimate?> OpticalBlackDn { get; init; } = [];

    /// <summary>How temporal noise goes together across the channels; null for a single frame or a single channel.</summary>
    internal NoiseNeighbours? Mosaic { get; init; }
}
