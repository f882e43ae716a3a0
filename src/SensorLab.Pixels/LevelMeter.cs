using System.IO.Hashing;
using System.Runtime.InteropServices;
using SensorLab.Frames;
using SensorLab.Pixels.Defects;
using SensorLab.Pixels.Field;
using SensorLab.Pixels.Neighbours;
using SensorLab.Pixels.Planes;
using SensorLab.Sets;

namespace SensorLab.Pixels;

/// <summary>
/// Measures a level in one pass: the frames are read side by side, a few rows at a time, so that memory holds rows and
/// never frames, however many frames the level has.
/// </summary>
public sealed class LevelMeter : IDisposable
{
    private const int NoBlockRow = -1;

    /// <summary>Of so many rows, two go into a frame's hash: no noisy frame repeats another's in hundreds of rows.</summary>
    private const int RowsPerHashedPair = 8;

    /// <summary>Pairs of rows a cell of the field's map: a few thousand photosites at 24 megapixels, at a tenth of the cost of all.</summary>
    private const int RowPairsACell = 8;

    private readonly Level _level;
    private readonly IReadOnlyList<IMosaicReader> _readers;
    private readonly MosaicLayout _layout;
    private readonly MeasurementArea _area;
    private readonly PixelRectangle _region;
    private readonly LineFiller[]? _deadLines;
    private readonly BlockGrid _grid;
    private readonly ColourFilterArray _array;
    private readonly Dictionary<SensorChannel, ChannelPlanes> _channels;

    /// <summary>The planes of a repeat, row by row.</summary>
    private readonly PlaneAccumulator[] _planes;
    private readonly RowDealer _dealer;
    private readonly MosaicNeighbourMeter? _mosaic;
    private readonly SpotMeter _spot;
    private readonly FieldMapMeter _field;
    private readonly MaskedMeter? _masked;
    private readonly XxHash3[] _hashes;
    private readonly RowBuffer[] _rows;
    private readonly DarkReference _dark;
    private readonly DamageWatch _damage;

    private LevelMeter(Level level, IReadOnlyList<IMosaicReader> readers, MeasurementArea area, DarkReference dark)
    {
        _level = level;
        _readers = readers;
        _layout = readers[0].Frame.Layout;
        _area = area;
        _region = area.Region;
        _array = _layout.ColourFilterArray;
        _grid = new BlockGrid(_region.Width / _array.Columns, _region.Height / _array.Rows, Math.Max(_array.Rows, _array.Columns));
        _channels = _array.Channels.ToDictionary(c => c, c => new ChannelPlanes(c, _array, _grid, readers.Count, level.Key.Role == FrameRole.Dark, dark.DefectsOf(c)));
        _planes = [.. _channels.Values.SelectMany(c => c.Planes).OrderBy(p => p.Place.Row).ThenBy(p => p.Place.Column)];
        _deadLines = area.DeadLines.Count == 0 ? null : [.. _planes.Select(p => FillerOf(p.Place))];
        _mosaic = _array.IsMonochrome ? null : new MosaicNeighbourMeter(_array, _planes);
        _dealer = new RowDealer(_region.Width);
        _spot = new SpotMeter(area.Spot, _array);
        _field = new FieldMapMeter(_layout.ActiveArea, _array, RowPairsACell);
        _masked = MaskedMeter.Of([.. readers.Select(r => r.Frame.Layout)]);
        _hashes = Enumerable.Range(0, readers.Count).Select(_ => new XxHash3()).ToArray();
        _rows = readers.Select(r => new RowBuffer(r)).ToArray();
        _dark = dark;
        _damage = new DamageWatch(readers.Count);
    }

    /// <summary>Measures all frames of a level.</summary>
    /// <param name="level">The level.</param>
    /// <param name="readers">One reader a frame, in the level's order, each at its first row and of one layout.</param>
    /// <param name="area">Where to measure.</param>
    /// <param name="cancellation">Stops the work at once.</param>
    /// <returns>The level's statistics.</returns>
    /// <exception cref="ArgumentException">There is no reader, not one a frame, or the layouts differ.</exception>
    /// <exception cref="LevelFrameException">A frame's data are damaged.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static LevelStatistics Measure(Level level, IReadOnlyList<IMosaicReader> readers, MeasurementArea area, CancellationToken cancellation = default) =>
        Measure(level, readers, area, DarkReference.None, cancellation);

    /// <summary>Measures all frames of a level, given what the dark frames of its ISO showed.</summary>
    /// <param name="level">The level.</param>
    /// <param name="readers">One reader a frame, in the level's order, each at its first row and of one layout.</param>
    /// <param name="area">Where to measure.</param>
    /// <param name="dark">What dark frames of the same region showed; nothing for a dark level.</param>
    /// <param name="cancellation">Stops the work at once.</param>
    /// <returns>The level's statistics.</returns>
    /// <exception cref="ArgumentException">There is no reader, not one a frame, or the layouts differ.</exception>
    /// <exception cref="LevelFrameException">A frame's data are damaged.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static LevelStatistics Measure(Level level, IReadOnlyList<IMosaicReader> readers, MeasurementArea area, DarkReference dark, CancellationToken cancellation)
    {
        if (readers.Count == 0 || readers.Count != level.Frames.Count)
        {
            throw new ArgumentException("A level is measured with one reader a frame.", nameof(readers));
        }

        MosaicLayout layout = readers[0].Frame.Layout;
        if (readers.Any(r => r.Frame.Layout.ActiveArea != layout.ActiveArea || r.Frame.Layout.ColourFilterArray != layout.ColourFilterArray))
        {
            throw new ArgumentException("The frames of a level have one size and one colour filter array.", nameof(readers));
        }

        using var meter = new LevelMeter(level, readers, area, dark);
        return meter.Run(cancellation);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _spot.Dispose();
        foreach (IDisposable buffers in _channels.Values.Concat<IDisposable>(_rows))
        {
            buffers.Dispose();
        }
    }

    /// <summary>The planes that have a site in a row of the active area, one a column of the repeat.</summary>
    private ReadOnlySpan<PlaneAccumulator> PlanesOf(int row) => _planes.AsSpan(row % _array.Rows * _array.Columns, _array.Columns);

    private LevelStatistics Run(CancellationToken cancellation)
    {
        for (int frame = 0; frame < _readers.Count; frame++)
        {
            ReadMargin(frame, 0, _readers[frame].Frame.Layout.ActiveArea.Y);
        }

        ReadRows(0, _region.Y, NoBlockRow, cancellation);
        for (int blockRow = 0; blockRow < _grid.BlockRows; blockRow++)
        {
            int first = _region.Y + (_grid.FirstRowOf(blockRow) * _array.Rows);
            foreach (PlaneAccumulator plane in _planes)
            {
                plane.BeginBlockRow();
            }

            ReadRows(first, first + (_grid.RowsOf(blockRow) * _array.Rows), blockRow, cancellation);
            foreach (ChannelPlanes channel in _channels.Values)
            {
                channel.FinishBlockRow(blockRow);
            }

            _mosaic?.AddBlockRow();
        }

        ReadRows(_region.Bottom, _layout.ActiveArea.Height, NoBlockRow, cancellation);
        for (int frame = 0; frame < _readers.Count; frame++)
        {
            ReadMargin(frame, _layout.ActiveArea.Bottom, _masked?.EndRow ?? 0);
        }

        if (_damage.FirstFault() is { } found)
        {
            throw new LevelFrameException(_level.Frames[found.Frame], found.Damage);
        }

        return new LevelStatistics(
            _level,
            _layout.ColourFilterArray.Channels.Select(c => _channels[c].ToStatistics(BlackDnOf(c), _spot.Of(c))).ToArray(),
            Enumerable.Range(0, _readers.Count).Select(HashOf).ToArray(),
            _field.ToMap())
        {
            Area = _area,
            OpticalBlackDn = [.. _layout.ColourFilterArray.Channels.Select(c => _masked?.MeanDnOf(c))],
            Mosaic = _mosaic?.ToNeighbours(),
        };
    }

    private bool IsDark => _level.Key.Role == FrameRole.Dark;

    /// <summary>Black of a channel: what the dark frames showed, else what the first file declares, else 0; null for a dark level, which is its own.</summary>
    private double? BlackDnOf(SensorChannel channel) => IsDark
        ? null
        : _dark.BlackDnOf(channel) ?? _readers[0].Frame.Declared.BlackDn.GetValueOrDefault(channel);

    /// <summary>A hash of a sample of rows and of the exact sums over all pixels of the region.</summary>
    private ulong HashOf(int frame)
    {
        Span<double> sums = stackalloc double[2];
        foreach (SensorChannel channel in _layout.ColourFilterArray.Channels)
        {
            (sums[0], sums[1]) = _channels[channel].AsReadOf(frame);
            _hashes[frame].Append(MemoryMarshal.AsBytes(sums));
        }

        return _hashes[frame].GetCurrentHashAsUInt64();
    }

    /// <summary>Reads rows of the active area, all frames side by side; those of a row of blocks join its statistics.</summary>
    private void ReadRows(int first, int end, int blockRow, CancellationToken cancellation)
    {
        for (int row = first; row < end; row++)
        {
            cancellation.ThrowIfCancellationRequested();
            int bandRow = blockRow == NoBlockRow ? 0 : ((row - _region.Y) / _array.Rows) - _grid.FirstRowOf(blockRow);
            for (int frame = 0; frame < _readers.Count; frame++)
            {
                PixelRectangle active = _readers[frame].Frame.Layout.ActiveArea;
                ReadOnlySpan<ushort> stored = NextOrName(frame);
                _masked?.AddRow(active.Y + row, stored);
                ReadOnlySpan<ushort> values = stored.Slice(active.X, active.Width);
                _damage.AddRow(frame, values);
                if (row % RowsPerHashedPair < 2)
                {
                    _hashes[frame].Append(MemoryMarshal.AsBytes(values));
                }

                _spot.AddRow(row, values);
                if (frame == 0)
                {
                    _field.AddRow(row, values);
                }

                if (blockRow != NoBlockRow)
                {
                    Split(frame, row, values.Slice(_region.X, _region.Width), bandRow);
                }
            }

            _damage.EndRow(row);
            for (int column = 0; blockRow != NoBlockRow && column < _array.Columns; column++)
            {
                PlanesOf(row)[column].AddRow(bandRow);
            }
        }
    }

    /// <summary>Passes stored rows above or below the active area, whose masked photosites count.</summary>
    private void ReadMargin(int frame, int first, int end)
    {
        for (int row = first; row < end; row++)
        {
            ReadOnlySpan<ushort> stored = NextOrName(frame);
            _masked?.AddRow(row, stored);
        }
    }

    private ReadOnlySpan<ushort> NextOrName(int frame)
    {
        try
        {
            return _rows[frame].Next();
        }
        catch (Exception e) when (e is MalformedFileException or UnsupportedFileException or IOException)
        {
            throw new LevelFrameException(_level.Frames[frame], e);
        }
    }

    private void Split(int frame, int row, ReadOnlySpan<ushort> values, int bandRow)
    {
        ReadOnlySpan<PlaneAccumulator> planes = PlanesOf(row);
        ushort bits = _dealer.Deal(values, planes, frame, bandRow);
        for (int column = 0; column < planes.Length; column++)
        {
            PlaneBand band = planes[column].BandOf(frame);
            band.Close(bandRow, bits);
            _deadLines?[(row % _array.Rows * _array.Columns) + column].Fill(band, (row - _region.Y) / _array.Rows, bandRow);
        }
    }

    /// <summary>The dead lines that cross a plane.</summary>
    private LineFiller FillerOf(PlanePlace place)
    {
        DeadLine[] own = [.. _area.DeadLines.Where(l => l.Channel == _array.ChannelAt(place.Row, place.Column))];
        return new LineFiller(
            own.Where(l => l.IsRow).Select(l => place.LineOf(true, l.Photosite - _region.Y)).OfType<int>().ToHashSet(),
            [.. own.Where(l => !l.IsRow).Select(l => place.LineOf(false, l.Photosite - _region.X)).OfType<int>()]);
    }
}
