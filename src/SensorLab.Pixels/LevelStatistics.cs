using SensorLab.Law;
using SensorLab.Pixels.Field;
using SensorLab.Pixels.Neighbours;
using SensorLab.Sets;

namespace SensorLab.Pixels;

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

    /// <summary>The statistics as bytes, to be read by the same build of the program; level and area are not among them.</summary>
    /// <param name="to">Takes them.</param>
    public void Write(BinaryWriter to)
    {
        to.WriteAll(Channels, c => c.Write(to));
        to.WriteAll(PixelHashes, to.Write);
        Field.Write(to);
        to.WriteAll(OpticalBlackDn, to.Write);
        to.WriteIf(Mosaic, m => m.Write(to));
    }

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    /// <param name="from">The bytes.</param>
    /// <param name="level">The level that they are of.</param>
    /// <param name="area">Where it was measured.</param>
    /// <exception cref="IOException">The bytes end too early.</exception>
    public static LevelStatistics Read(BinaryReader from, Level level, MeasurementArea area) =>
        new(level, from.ReadAll(() => ChannelStatistics.Read(from)), from.ReadAll(from.ReadUInt64), FieldMap.Read(from))
        {
            Area = area,
            OpticalBlackDn = from.ReadAll(from.ReadEstimateIf),
            Mosaic = from.ReadIf(() => NoiseNeighbours.Read(from)),
        };
}
