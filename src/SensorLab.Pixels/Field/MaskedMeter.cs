using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Pixels.Kernels;

namespace SensorLab.Pixels.Field;

/// <summary>Mean of each channel over the masked photosites (optical black) of a level's frames: a few columns or rows, on the way.</summary>
/// <remarks>
/// Masked photosites of a row or of a column are not independent, whatever the reason: rows and columns are taken for
/// clusters of their own, and the mean's variance is the sum of what the rows' and what the columns' means scatter. For
/// plain white noise that is √2 too much; it holds for row noise, column patterns and single hot pixels alike.
/// </remarks>
internal sealed class MaskedMeter
{
    /// <summary>Fewer sites a channel and frame say nothing that a dark frame does not say better.</summary>
    private const int FewestPixels = 64;

    private readonly PixelRectangle[] _areas;
    private readonly PixelRectangle _active;
    private readonly ColourFilterArray _array;
    private readonly int _frames;
    private readonly Dictionary<SensorChannel, (ClusterSums Rows, ClusterSums Columns)> _sums = [];

    private MaskedMeter(MosaicLayout layout, PixelRectangle[] areas, int frames)
    {
        _areas = areas;
        _active = layout.ActiveArea;
        _array = layout.ColourFilterArray;
        _frames = frames;
        EndRow = areas.Max(area => area.Bottom);
        foreach (SensorChannel channel in _array.Channels)
        {
            _sums[channel] = (new ClusterSums(layout.HeightPixels), new ClusterSums(layout.WidthPixels));
        }
    }

    /// <summary>The row behind the last masked one, from the top of what is stored.</summary>
    public int EndRow { get; }

    /// <summary>A meter for the frames of a level.</summary>
    /// <param name="layouts">The frames' geometries.</param>
    /// <returns>Null where the frames name no masked areas outside of the active one, or not the same.</returns>
    public static MaskedMeter? Of(IReadOnlyList<MosaicLayout> layouts)
    {
        MosaicLayout first = layouts[0];
        PixelRectangle[] areas = [.. first.MaskedAreas.Where(area => area.Area > 0 && !Touch(area, first.ActiveArea))];
        bool areAlike = layouts.All(l => l.WidthPixels == first.WidthPixels && l.HeightPixels == first.HeightPixels && l.MaskedAreas.SequenceEqual(first.MaskedAreas));
        bool overlap = areas.Where((area, i) => areas.Skip(i + 1).Any(other => Touch(area, other))).Any();
        return areas.Length == 0 || !areAlike || overlap ? null : new MaskedMeter(first, areas, layouts.Count);
    }

    /// <summary>Adds a stored row of a frame.</summary>
    /// <param name="row">Row from the top of what is stored.</param>
    /// <param name="values">The whole row.</param>
    public void AddRow(int row, ReadOnlySpan<ushort> values)
    {
        foreach (PixelRectangle area in _areas)
        {
            for (int phase = 0; row >= area.Y && row < area.Bottom && phase < _array.Columns; phase++)
            {
                (ClusterSums rows, ClusterSums columns) = _sums[_array.ChannelAt(row - _active.Y, area.X + phase - _active.X)];
                for (int x = area.X + phase; x < area.Right; x += _array.Columns)
                {
                    rows.Add(row, values[x]);
                    columns.Add(x, values[x]);
                }
            }
        }
    }

    /// <summary>The mean of a channel's masked sites over all frames, in DN.</summary>
    /// <param name="channel">The channel.</param>
    /// <returns>Null where there are too few sites, or all hold one code: filled in by a program, not read from a sensor.</returns>
    public Estimate? MeanDnOf(SensorChannel channel)
    {
        (ClusterSums rows, ClusterSums columns) = _sums[channel];
        if (rows.Values < (long)FewestPixels * _frames)
        {
            return null;
        }

        double variance = rows.VarianceOfMean() + columns.VarianceOfMean();
        return variance > 0 ? new Estimate(rows.Mean, Math.Sqrt(variance)) : null;
    }

    private static bool Touch(PixelRectangle a, PixelRectangle b) => a.X < b.Right && b.X < a.Right && a.Y < b.Bottom && b.Y < a.Bottom;
}
