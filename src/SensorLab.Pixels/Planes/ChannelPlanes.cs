using SensorLab.Frames;
using SensorLab.Pixels.Codes;
using SensorLab.Pixels.Field;
using SensorLab.Pixels.Neighbours;

namespace SensorLab.Pixels.Planes;

/// <summary>The planes of one channel of a level: one for each place that it has in the repeat of the colour filter array.</summary>
internal sealed class ChannelPlanes : IDisposable
{
    private readonly SensorChannel _channel;
    private readonly PlaneAccumulator[] _planes;
    private readonly CodeCounter _codes;
    private readonly ChannelNeighbours? _neighbours;
    private readonly NeighbourSums _temporal = new();
    private readonly NeighbourSums _stack = new();
    private readonly bool _dark;

    /// <summary>Starts a channel.</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="array">The filters.</param>
    /// <param name="grid">The blocks of each plane.</param>
    /// <param name="frames">Frames of the level.</param>
    /// <param name="dark">Whether they are dark ones.</param>
    /// <param name="known">Defective sites that dark frames showed, plane by plane.</param>
    public ChannelPlanes(SensorChannel channel, ColourFilterArray array, BlockGrid grid, int frames, bool dark, IReadOnlyList<int> known)
    {
        (_channel, _dark) = (channel, dark);
        PlanePlace[] places = [.. array.SitesOf(channel).Select(site => new PlanePlace(site.Row, site.Column, array.Rows, array.Columns))];
        int sites = grid.Width * grid.Height;
        _codes = new CodeCounter((long)sites * places.Length * frames, dark);
        _planes = [.. places.Select((place, i) => new PlaneAccumulator(place, grid, frames, dark, KnownOf(known, i, sites, places.Length), _codes))];
        _neighbours = places.Length > 1 && frames > 1 ? new ChannelNeighbours(places) : null;
    }

    /// <summary>The planes, in reading order of their places.</summary>
    public IReadOnlyList<PlaneAccumulator> Planes => _planes;

    /// <summary>Ends a row of blocks.</summary>
    public void FinishBlockRow(int blockRow)
    {
        foreach (PlaneAccumulator plane in _planes)
        {
            plane.FinishBlockRow(blockRow);
        }

        if (_neighbours is null)
        {
            return;
        }

        for (int i = 0; i < _planes[0].SampledNoise.Length; i++)
        {
            _temporal.Add(Array.ConvertAll(_planes, p => p.SampledNoise[i]), _neighbours);
        }

        for (int block = 0; block < _planes[0].SampledStack.Length; block++)
        {
            _stack.Add(Array.ConvertAll(_planes, p => p.SampledStack[block]), _neighbours);
        }
    }

    /// <summary>Sum and sum of squares of a frame's values as they were read, defects in place.</summary>
    public (double Sum, double Squares) AsReadOf(int frame) => (_planes.Sum(p => p.AsReadOf(frame).Sum), _planes.Sum(p => p.AsReadOf(frame).Squares));

    /// <summary>The channel's statistics, once all rows of blocks are in.</summary>
    /// <param name="blackDn">Black level in DN; null for a dark level, which is its own.</param>
    /// <param name="spot">What the spot meter saw of the channel.</param>
    public ChannelStatistics ToStatistics(double? blackDn, SpotView spot)
    {
        PlaneMoments[] moments = [.. _planes.Select(p => p.Moments)];
        double black = blackDn ?? Enumerable.Range(0, moments[0].Frames.Count).Average(frame => moments.Average(m => m.MeanDnOf(frame)));
        int sites = (int)moments[0].Pixels;
        (int Count, IReadOnlyList<int> Sites)[] defects = [.. _planes.Select(p => p.Defects)];
        return new ChannelStatistics(
            _channel,
            moments,
            black,
            _codes.ToHistogram(),
            (defects.Sum(d => d.Count), [.. defects.SelectMany((d, i) => d.Sites.Select(site => (i * sites) + site))]),
            spot,
            _neighbours is null ? _planes[0].Neighbours : (_temporal, _stack))
        {
            Lines = _dark ? LineMeans.Of(moments) : null,
        };
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _codes.Dispose();
        foreach (PlaneAccumulator plane in _planes)
        {
            plane.Dispose();
        }
    }

    private static IReadOnlyList<int> KnownOf(IReadOnlyList<int> known, int plane, int sites, int planes) =>
        planes == 1 ? known : [.. known.Where(site => site / sites == plane).Select(site => site % sites)];
}

/// <summary>Where the sites of a plane lie: at one place of every repeat of the colour filter array.</summary>
/// <param name="Row">Row of the place in the repeat.</param>
/// <param name="Column">Its column.</param>
/// <param name="RowStep">Photosites from one row of the plane to the next.</param>
/// <param name="ColumnStep">Photosites from one column to the next.</param>
internal readonly record struct PlanePlace(int Row, int Column, int RowStep, int ColumnStep)
{
    /// <summary>The row or column of the region that a line of the plane is.</summary>
    /// <param name="isRow">Whether the line is a row.</param>
    /// <param name="line">Its number in the plane.</param>
    public int PhotositeOf(bool isRow, int line) => isRow ? Row + (line * RowStep) : Column + (line * ColumnStep);

    /// <summary>The line of the plane that a row or column of the region is; null where it is none of the plane's.</summary>
    /// <param name="isRow">Whether it is a row.</param>
    /// <param name="photosite">Its number in the region.</param>
    public int? LineOf(bool isRow, int photosite)
    {
        (int from, int step) = isRow ? (photosite - Row, RowStep) : (photosite - Column, ColumnStep);
        return from >= 0 && from % step == 0 ? from / step : null;
    }
}
