using SensorLab.Frames;
using SensorLab.Pixels.Defects;
using SensorLab.Pixels.Field;
using SensorLab.Pixels.Neighbours;
using SensorLab.Pixels.Planes;
using SensorLab.Pixels.Variances;
using SensorLab.Profiles;

namespace SensorLab.Pixels;

/// <summary>What is kept of one channel of a level: enough for every later question, without the pixels and without their lines and blocks.</summary>
public sealed class ChannelStatistics
{
    internal ChannelStatistics(
        SensorChannel channel,
        IReadOnlyList<PlaneMoments> planes,
        double blackDn,
        CodeHistogram codes,
        (int Count, IReadOnlyList<int> Sites) defects,
        SpotView spot,
        (NeighbourSums Temporal, NeighbourSums Stack) neighbours)
    {
        Channel = channel;
        Columns = planes[0].Columns * planes.Select(p => p.Place.Column).Distinct().Count();
        Rows = planes[0].Rows * planes.Select(p => p.Place.Row).Distinct().Count();
        Pixels = planes.Sum(p => p.Pixels);
        FrameMeansDn = FrameMeansOf(planes);
        Blocks = PlaneMoments.Spread(planes);
        OddLines = OddLine.Of(planes);
        if (planes[0].Frames.Count > 1)
        {
            (TemporalVariance Variance, IReadOnlyList<double> BlocksDn2)[] temporal = TemporalContrasts.Of(planes, blackDn);
            Temporal = PooledVariance.Of(planes, [.. temporal.Select(t => t.Variance)]);
            FixedPattern = PooledVariance.Of(planes, [.. planes.Zip(temporal, (plane, own) => FixedPatternVariance.Of(plane, own.Variance, own.BlocksDn2))], 1.0 / planes[0].Frames.Count, Temporal.Parts);
        }

        Codes = codes;
        DefectivePixels = defects.Count;
        DefectSites = defects.Sites;
        SpotMeanDn = spot.MeanDn;
        SpotPixels = spot.Pixels;
        SpotRows = spot.Rows;
        SpotColumns = (double)spot.Columns;
        TemporalNeighbours = neighbours.Temporal;
        StackNeighbours = neighbours.Stack;
    }

    private ChannelStatistics(BinaryReader from)
    {
        Channel = (SensorChannel)from.ReadInt32();
        (Columns, Rows, Pixels) = (from.ReadInt32(), from.ReadInt32(), from.ReadInt64());
        FrameMeansDn = from.ReadAll(from.ReadDouble);
        Blocks = new BlockSpread(from.ReadAll(from.ReadDouble), from.ReadDouble(), from.ReadInt32());
        OddLines = from.ReadAll(() => new OddLine(from.ReadBoolean(), from.ReadInt32(), from.ReadDouble()));
        Temporal = from.ReadIf(() => new TemporalVariance(from.ReadVarianceParts(), from.ReadDouble(), from.ReadDouble(), from.ReadDoubleIf()));
        FixedPattern = from.ReadIf(from.ReadVarianceParts);
        Lines = from.ReadIf(() => new LineMeans(from.ReadAll(from.ReadDouble), from.ReadAll(from.ReadDouble)));
        Codes = new CodeHistogram(from.ReadInt32(), from.ReadAll(from.Read7BitEncodedInt64));
        DefectivePixels = from.ReadInt32();
        DefectSites = from.ReadAll(from.ReadInt32);
        (SpotMeanDn, SpotPixels, SpotRows, SpotColumns) = (from.ReadDouble(), from.ReadInt64(), from.ReadInt32(), from.ReadDouble());
        (TemporalNeighbours, StackNeighbours) = (NeighbourSums.Read(from), NeighbourSums.Read(from));
    }

    /// <summary>The channel.</summary>
    public SensorChannel Channel { get; }

    /// <summary>Columns of the region that hold the channel.</summary>
    public int Columns { get; }

    /// <summary>Rows of the region that hold the channel.</summary>
    public int Rows { get; }

    /// <summary>Sites of the region.</summary>
    public long Pixels { get; }

    /// <summary>Whether the channel has a site at every crossing of its rows and columns, as in patterns of 2×2.</summary>
    public bool FillsItsLines => Pixels == (long)Rows * Columns;

    /// <summary>Mean of each frame in DN, in the order in which they were taken.</summary>
    public IReadOnlyList<double> FrameMeansDn { get; }

    /// <summary>Mean of all frames in DN.</summary>
    public double MeanDn => FrameMeansDn.Average();

    /// <summary>How the blocks of the region differ.</summary>
    public BlockSpread Blocks { get; }

    /// <summary>Variance from frame to frame; null for a level of one frame.</summary>
    internal TemporalVariance? Temporal { get; }

    /// <summary>Variance that all frames share, shading left out; null for a level of one frame.</summary>
    public VarianceParts? FixedPattern { get; }

    /// <summary>The lines' means of a dark level; null for a lit one.</summary>
    internal LineMeans? Lines { get; init; }

    /// <summary>Lines that stand out of their neighbours: none in a sound sensor, a few in one with defects.</summary>
    internal IReadOnlyList<OddLine> OddLines { get; }

    /// <summary>Counts of codes, over all pixels or an even sample of rows.</summary>
    public CodeHistogram Codes { get; }

    /// <summary>Defective pixels that a neighbour replaced.</summary>
    public int DefectivePixels { get; }

    /// <summary>Where those of a dark level lie: row × width + column of the channel's plane, of several planes counted on from one to the next; empty for a lit one.</summary>
    public IReadOnlyList<int> DefectSites { get; }

    /// <summary>Mean of all frames where the spot meter looks, in DN.</summary>
    public double SpotMeanDn { get; }

    /// <summary>Sites that <see cref="SpotMeanDn"/> rests on.</summary>
    public long SpotPixels { get; }

    /// <summary>Rows of the channel that the spot meter sees.</summary>
    public int SpotRows { get; }

    /// <summary>Columns of the channel that the spot meter sees.</summary>
    internal double SpotColumns { get; }

    /// <summary>Neighbours in the differences of two frames each, over a sample of blocks.</summary>
    public NeighbourSums TemporalNeighbours { get; }

    /// <summary>Neighbours in the sum of all frames, over the same sample.</summary>
    public NeighbourSums StackNeighbours { get; }

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    internal static ChannelStatistics Read(BinaryReader from) => new(from);

    /// <summary>Writes the statistics as bytes, in the order in which they are read.</summary>
    internal void Write(BinaryWriter to)
    {
        to.Write((int)Channel);
        to.Write(Columns);
        to.Write(Rows);
        to.Write(Pixels);
        to.WriteAll(FrameMeansDn, to.Write);
        to.WriteAll(Blocks.MeansDn, to.Write);
        to.Write(Blocks.VarianceDn2);
        to.Write(Blocks.PixelsABlock);
        to.WriteAll(OddLines, line =>
        {
            to.Write(line.IsRow);
            to.Write(line.Photosite);
            to.Write(line.OffDn);
        });
        to.WriteIf(Temporal, temporal =>
        {
            to.Write(temporal.Parts);
            to.Write(temporal.NarrowRowDn2);
            to.Write(temporal.NarrowColumnDn2);
            to.Write(temporal.BandDn2);
        });
        to.WriteIf(FixedPattern, to.Write);
        to.WriteIf(Lines, lines =>
        {
            to.WriteAll(lines.RowsDn, to.Write);
            to.WriteAll(lines.ColumnsDn, to.Write);
        });
        to.Write(Codes.FirstCodeDn);
        to.WriteAll(Codes.Counts, to.Write7BitEncodedInt64);
        to.Write(DefectivePixels);
        to.WriteAll(DefectSites, to.Write);
        to.Write(SpotMeanDn);
        to.Write(SpotPixels);
        to.Write(SpotRows);
        to.Write(SpotColumns);
        TemporalNeighbours.Write(to);
        StackNeighbours.Write(to);
    }

    private static double[] FrameMeansOf(IReadOnlyList<PlaneMoments> planes) =>
        [.. Enumerable.Range(0, planes[0].Frames.Count).Select(frame => planes.Average(p => p.MeanDnOf(frame)))];
}

/// <summary>How the blocks of one channel of a level differ.</summary>
/// <param name="MeansDn">Means of the blocks over all frames in DN, rising; of many an even choice with the darkest and the brightest.</param>
/// <param name="VarianceDn2">Variance of the first frame's values in DN², row and column means of each block taken out: temporal noise and fixed pattern together.</param>
/// <param name="PixelsABlock">Sites of the first block; the others have nearly as many.</param>
public sealed record BlockSpread(IReadOnlyList<double> MeansDn, double VarianceDn2, int PixelsABlock)
{
    /// <summary>Mean of the darkest block in DN.</summary>
    public double LowestMeanDn => MeansDn[0];

    /// <summary>Mean of the brightest block in DN.</summary>
    public double HighestMeanDn => MeansDn[^1];
}
