using SensorLab.Law;
using SensorLab.Pixels.Planes;
using SensorLab.Profiles;

namespace SensorLab.Pixels.Variances;

/// <summary>The temporal variance of a level, split into pixel, row and column parts.</summary>
/// <remarks>
/// Frame k is compared with the sum of the frames before it, scaled to its light: n frames give n − 1 independent
/// contrasts (Helmert's). For two frames it is EMVA 1288 R4's two-image method with the field's shading removed. The
/// pixel part comes from blocks whose row and column means are taken out, so that bands of light that wander over an
/// uneven field do not reach it; the row and column parts come from the region's line means. Where wide bands stand out
/// of the rows, second differences of the means leave them out, and they are given apart; columns that vary widely are
/// light that moved sideways between the frames.
/// </remarks>
internal sealed class TemporalContrasts
{
    /// <summary>Signal in DN below which light steps between frames cannot matter and the frames are not scaled.</summary>
    private const double SmallestScaledSignalDn = 2;

    private readonly PlaneMoments _channel;
    private readonly double[] _signals;
    private readonly double[] _earlierRows;
    private readonly double[] _earlierColumns;
    private readonly double[] _earlierBlocks;
    private readonly List<LineMeansVariance> _rows = [];
    private readonly List<LineMeansVariance> _narrowRows = [];
    private readonly List<LineMeansVariance> _columns = [];
    private readonly List<LineMeansVariance> _narrowColumns = [];
    private readonly double[] _blockSquares;

    private TemporalContrasts(PlaneMoments channel, double blackDn)
    {
        _channel = channel;
        _signals = channel.Frames.Select(f => (f.Sum / channel.Pixels) - blackDn).ToArray();
        _earlierRows = [.. channel.Frames[0].RowSums];
        _earlierColumns = [.. channel.Frames[0].ColumnSums];
        _earlierBlocks = [.. channel.Frames[0].BlockSquares];
        _blockSquares = new double[channel.Blocks];
    }

    /// <summary>Temporal variance of a channel's planes, which bands of light cross together or not at all, each with its pixel part block by block in DN².</summary>
    /// <param name="planes">Moments of two frames or more.</param>
    /// <param name="blackDn">Black level in DN.</param>
    public static (TemporalVariance Variance, IReadOnlyList<double> BlocksDn2)[] Of(IReadOnlyList<PlaneMoments> planes, double blackDn)
    {
        TemporalContrasts[] all = [.. planes.Select(p => new TemporalContrasts(p, blackDn).WithAllFrames())];
        bool isBanded = IsWide([.. planes.Select(p => p.Place.Row)], [.. all.SelectMany(c => c._rows)], [.. all.SelectMany(c => c._narrowRows)]);
        bool isMovedSideways = IsWide([.. planes.Select(p => p.Place.Column)], [.. all.SelectMany(c => c._columns)], [.. all.SelectMany(c => c._narrowColumns)]);
        return [.. all.Select(c => (c.ToVariance(isBanded, isMovedSideways), c.BlocksDn2()))];
    }

    private TemporalContrasts WithAllFrames()
    {
        for (int frame = 1; frame < _channel.Frames.Count; frame++)
        {
            Add(frame);
        }

        return this;
    }

    private void Add(int frame)
    {
        FrameMoments own = _channel.Frames[frame];
        double scale = ScaleOf(_signals[frame], _signals.Take(frame).Sum(), frame);
        double norm = 1 + (scale * scale * frame);
        double[] rows = Differences(own.RowSums, _earlierRows, scale);
        double[] columns = Differences(own.ColumnSums, _earlierColumns, scale);
        _rows.Add(LineMeansVariance.AboutMean(rows, _channel.Columns * Math.Sqrt(norm)));
        _narrowRows.Add(LineMeansVariance.OfSecondDifferences(rows, _channel.Columns * Math.Sqrt(norm)));
        _columns.Add(LineMeansVariance.AboutMean(columns, _channel.Rows * Math.Sqrt(norm)));
        _narrowColumns.Add(LineMeansVariance.OfSecondDifferences(columns, _channel.Rows * Math.Sqrt(norm)));
        for (int block = 0; block < _channel.Blocks; block++)
        {
            double products = own.BlockProducts[block];
            _blockSquares[block] += (own.BlockSquares[block] - (2 * scale * products) + (scale * scale * _earlierBlocks[block])) / norm;
            _earlierBlocks[block] += own.BlockSquares[block] + (2 * products);
        }
    }

    /// <summary>What the sum of the earlier frames is multiplied by to be compared with a frame.</summary>
    /// <param name="signalDn">The frame's signal in DN.</param>
    /// <param name="earlierDn">The sum of the earlier ones'.</param>
    /// <param name="earlierFrames">How many those are.</param>
    public static double ScaleOf(double signalDn, double earlierDn, int earlierFrames) =>
        earlierDn > SmallestScaledSignalDn * earlierFrames && signalDn > SmallestScaledSignalDn ? signalDn / earlierDn : 1.0 / earlierFrames;

    /// <summary>A frame's line means less the scaled ones of the earlier frames, which it then joins.</summary>
    private static double[] Differences(double[] own, double[] earlier, double scale)
    {
        double[] differences = new double[own.Length];
        for (int i = 0; i < own.Length; i++)
        {
            differences[i] = own[i] - (scale * earlier[i]);
            earlier[i] += own[i];
        }

        return differences;
    }

    private IReadOnlyList<double> BlocksDn2() =>
        [.. _blockSquares.Select((squares, block) => squares / (_channel.Frames.Count - 1) / _channel.DegreesOfFreedomOf(block))];

    /// <summary>The mean of the contrasts' variances, which without light ought to be equal; photons' noise goes with each frame's own light.</summary>
    private LineMeansVariance Mean(List<LineMeansVariance> ofFrames) => _signals.Max() > SmallestScaledSignalDn ? LineMeansVariance.Mean(ofFrames) : LineMeansVariance.MeanOfEqual(ofFrames);

    private TemporalVariance ToVariance(bool isBanded, bool isMovedSideways)
    {
        double degrees = (_channel.Frames.Count - 1) * _channel.DegreesOfFreedom;
        double pixel = Math.Max(0, _blockSquares.Sum()) / degrees;
        double pixelUncertainty = pixel * Math.Sqrt(2 / degrees);
        LineMeansVariance wide = Mean(_rows);
        LineMeansVariance narrow = Mean(_narrowRows);
        LineMeansVariance row = isBanded ? narrow : wide;
        LineMeansVariance narrowColumn = Mean(_narrowColumns);
        LineMeansVariance column = isMovedSideways ? narrowColumn : Mean(_columns);
        var parts = new VarianceParts
        {
            PixelDn2 = pixel,
            PixelUncertaintyDn2 = pixelUncertainty,
            RowDn2 = row.Value - (pixel / _channel.Columns),
            RowUncertaintyDn2 = double.Hypot(row.StandardUncertainty, pixelUncertainty / _channel.Columns),
            ColumnDn2 = column.Value - (pixel / _channel.Rows),
            ColumnUncertaintyDn2 = double.Hypot(column.StandardUncertainty, pixelUncertainty / _channel.Rows),
        };
        return new TemporalVariance(
            parts,
            narrow.Value - (pixel / _channel.Columns),
            narrowColumn.Value - (pixel / _channel.Rows),
            isBanded ? wide.Value - narrow.Value : null);
    }

    /// <summary>Whether a channel's lines vary over the region by more than from one to the next; planes of one line may share all of its noise, and count once.</summary>
    /// <param name="lines">The line of each plane.</param>
    /// <param name="all">Variance of the lines about their mean, of all planes and frames.</param>
    /// <param name="narrow">The same from line to line.</param>
    private static bool IsWide(int[] lines, LineMeansVariance[] all, LineMeansVariance[] narrow)
    {
        double share = lines.Distinct().Count() / (double)lines.Length;
        (LineMeansVariance wide, LineMeansVariance near) = (LineMeansVariance.Mean(all), LineMeansVariance.Mean(narrow));
        double relative = double.Hypot(wide.StandardUncertainty / wide.Value, near.StandardUncertainty / near.Value) / Math.Sqrt(share);
        return wide.Value > near.Value * (1 + (Significance.Deviations * relative));
    }
}

/// <summary>The temporal variance of a level.</summary>
/// <param name="Parts">Its pixel, row and column parts.</param>
/// <param name="NarrowRowDn2">The row part by second differences, which bands wider than a few rows do not reach, in DN².</param>
/// <param name="NarrowColumnDn2">The same of the columns: light that moves sideways between frames does not reach it.</param>
/// <param name="BandDn2">Variance in DN² of wide bands across the rows, left out of the parts; null where there are none.</param>
internal sealed record TemporalVariance(VarianceParts Parts, double NarrowRowDn2, double NarrowColumnDn2, double? BandDn2);
