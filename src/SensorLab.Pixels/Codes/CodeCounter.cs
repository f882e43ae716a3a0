using System.Buffers;
using System.Runtime.CompilerServices;
using SensorLab.Profiles;

namespace SensorLab.Pixels.Codes;

/// <summary>Counts codes over an even sample of rows.</summary>
internal sealed class CodeCounter : IDisposable
{
    /// <summary>Pixels of a channel and level beyond which only some rows are counted: a share of 0.1 % is then known to 3 % of itself.</summary>
    private const long EnoughPixels = 1_000_000;

    private const int Codes = ushort.MaxValue + 1;

    private readonly int[] _counts = ArrayPool<int>.Shared.Rent(Codes);
    private readonly int _rowStride;

    /// <summary>Starts to count a channel.</summary>
    /// <param name="pixels">Pixels of the channel, over all of its planes and frames.</param>
    public CodeCounter(long pixels)
    {
        Array.Clear(_counts);
        _rowStride = (int)Math.Max(1, pixels / EnoughPixels);
    }

    /// <inheritdoc/>
    public void Dispose() => ArrayPool<int>.Shared.Return(_counts);

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Count(int row, ReadOnlySpan<ushort> values)
    {
        if (row % _rowStride != 0)
        {
            return;
        }

        foreach (ushort value in values)
        {
            _counts[value]++;
        }
    }

    /// <summary>The counts from the lowest code met to the highest.</summary>
    public CodeHistogram ToHistogram()
    {
        int first = Array.FindIndex(_counts, count => count > 0);
        int last = Array.FindLastIndex(_counts, count => count > 0);
        return first < 0 ? new CodeHistogram(0, []) : new CodeHistogram(first, Array.ConvertAll(_counts[first..(last + 1)], count => (long)count));
    }
}
