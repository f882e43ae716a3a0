using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using BenchmarkDotNet.Attributes;
using SensorLab.Frames;
using SensorLab.Pixels;
using SensorLab.Pixels.Field;
using SensorLab.Pixels.Kernels;
using SensorLab.Pixels.Planes;
using SensorLab.Sets;

namespace SensorLab.Benchmarks;

/// <summary>Two frames of 24 megapixels in memory, on one thread: the time a frame takes to be read at all, summed in blocks, and measured whole.</summary>
/// <remarks>On a machine that does other things too the fastest run counts.</remarks>
[MinColumn]
public class PairStatisticsBenchmark
{
    private const int Frames = 2;
    private const int Channels = 4;
    private const int PlaneWidth = FlatFrames.Width / 2;
    private const int PlaneHeight = FlatFrames.Height / 2;

    private static readonly BlockGrid Grid = new(PlaneWidth, PlaneHeight, 2);

    private readonly ushort[][] _frames = new ushort[Frames][];
    private readonly ushort[][] _planes = new ushort[Channels * Frames][];
    private readonly int[][] _columnSums = [new int[PlaneWidth], new int[PlaneWidth]];
    private readonly PairLanes[] _lanes = new PairLanes[Grid.BlockColumns];
    private readonly int[][] _rowSums = [.. Enumerable.Range(0, Grid.BlockColumns).Select(_ => new int[2 * PairKernel.RowsAtOnce])];
    private Level? _level;

    /// <summary>Makes the frames.</summary>
    [GlobalSetup]
    public void Expose()
    {
        List<SetFrame> frames = [];
        for (int i = 0; i < _planes.Length; i++)
        {
            _planes[i] = new ushort[PlaneWidth * PlaneHeight];
        }

        for (int i = 0; i < Frames; i++)
        {
            _frames[i] = FlatFrames.Codes(2000, 4, i + 1);
            for (int row = 0; row < FlatFrames.Height; row++)
            {
                int plane = (Channels * i) + (2 * (row % 2));
                int start = row / 2 * PlaneWidth;
                PlaneSplitter.Split(
                    _frames[i].AsSpan(row * FlatFrames.Width, FlatFrames.Width),
                    _planes[plane].AsSpan(start, PlaneWidth),
                    _planes[plane + 1].AsSpan(start, PlaneWidth));
            }

            frames.Add(new SetFrame { File = $"bracket/P{i}.dng", Raw = FlatFrames.Frame(100, 0.1, i), Role = FrameRole.Bracket, ContentKey = (ulong)i });
        }

        _level = new Level(new LevelKey(100, FrameRole.Bracket, 0.1, 5.6, null, null), frames);
    }

    /// <summary>Reading memory: a sum of the frames' bytes, eight at a time, as wide as the processor allows.</summary>
    [Benchmark(Baseline = true, OperationsPerInvoke = Frames)]
    public ulong MemoryRead()
    {
        ulong sum = 0;
        foreach (ushort[] frame in _frames)
        {
            ReadOnlySpan<Vector<ulong>> vectors = MemoryMarshal.Cast<ushort, Vector<ulong>>(frame);
            Vector<ulong> first = default, second = default, third = default, fourth = default;
            for (int i = 0; i <= vectors.Length - 4; i += 4)
            {
                (first, second, third, fourth) = (first + vectors[i], second + vectors[i + 1], third + vectors[i + 2], fourth + vectors[i + 3]);
            }

            sum += Vector.Sum(first + second + third + fourth);
        }

        return sum;
    }

    /// <summary>The kernel that sums blocks, over all four channels of both frames.</summary>
    [Benchmark(OperationsPerInvoke = Frames)]
    public double BlockSums()
    {
        double products = 0;
        for (int channel = 0; channel < Channels; channel++)
        {
            for (int blockRow = 0; blockRow < Grid.BlockRows; blockRow++)
            {
                Array.Clear(_columnSums[0]);
                Array.Clear(_columnSums[1]);
                Array.Fill(_lanes, new PairLanes());
                int end = Grid.FirstRowOf(blockRow) + Grid.RowsOf(blockRow);
                for (int row = Grid.FirstRowOf(blockRow); row <= end - PairKernel.RowsAtOnce; row += PairKernel.RowsAtOnce)
                {
                    SumFourRows(_planes[channel].AsSpan(row * PlaneWidth), _planes[Channels + channel].AsSpan(row * PlaneWidth));
                }

                foreach (PairLanes lanes in _lanes)
                {
                    products += lanes.Total().Second.Products;
                }
            }
        }

        return products;
    }

    /// <summary>All statistics of a level, from frames in memory.</summary>
    [Benchmark(OperationsPerInvoke = Frames)]
    public int AllStatistics()
    {
        using var first = new MemoryReader(_level!.Frames[0].Raw, _frames[0]);
        using var second = new MemoryReader(_level.Frames[1].Raw, _frames[1]);
        return LevelMeter.Measure(_level, [first, second], MeasurementArea.Of(first.Frame.Layout)).Channels.Count;
    }

    private void SumFourRows(ReadOnlySpan<ushort> first, ReadOnlySpan<ushort> second)
    {
        for (int block = 0; block < Grid.BlockColumns; block++)
        {
            int left = Grid.FirstColumnOf(block);
            int columns = Grid.ColumnsOf(block);
            (Vector128<int> rowsOfFirst, Vector128<int> rowsOfSecond) = PairKernel.AddRows(
                first[left..], second[left..], PlaneWidth, _columnSums[0].AsSpan(left, columns), _columnSums[1].AsSpan(left, columns), ref _lanes[block]);
            rowsOfFirst.CopyTo(_rowSums[block]);
            rowsOfSecond.CopyTo(_rowSums[block], PairKernel.RowsAtOnce);
        }
    }
}
