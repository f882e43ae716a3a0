using System.Buffers;
using System.Runtime.CompilerServices;
using SensorLab.Profiles;

namespace SensorLab.Pixels.Codes;

/// <summary>Counts codes: over an even sample of rows, and over all of them where noise without light covers few codes.</summary>
/// <remarks>
/// Of few codes the shares tell black and noise together with the spread between frames, which all pixels give: the two
/// hold each other's chance only where they are of the same pixels.
/// </remarks>
internal sealed class CodeCounter : IDisposable
{
    /// <summary>Pixels of a channel and level beyond which only some rows are counted: a share of 0.1 % is then known to 3 % of itself.</summary>
    private const long EnoughPixels = 1_000_000;

    private const int Codes = ushort.MaxValue + 1;

    /// <summary>Codes that hold nearly all values where noise is about one code or less.</summary>
    private const int FewCodes = 7;

    /// <summary>Share of the values that is nearly all: single photosites are hot.</summary>
    private const double NearlyAll = 0.995;

    /// <summary>Tables that values go to by turns: one that counts the same code again waits for the count before.</summary>
    private const int Tables = 4;

    private readonly int[] _counts = ArrayPool<int>.Shared.Rent(Tables * Codes);
    private readonly bool _dark;
    private int _rowStride;
    private bool _isFirst = true;

    /// <summary>Starts to count a channel.</summary>
    /// <param name="pixels">Pixels of the channel, over all of its planes and frames.</param>
    /// <param name="dark">Whether the frames are dark ones.</param>
    public CodeCounter(long pixels, bool dark)
    {
        Array.Clear(_counts);
        _dark = dark;
        _rowStride = (int)Math.Max(1, pixels / EnoughPixels);
    }

    /// <inheritdoc/>
    public void Dispose() => ArrayPool<int>.Shared.Return(_counts);

    /// <summary>Counts a row of values, if it is of the sample; a frame's first row is.</summary>
    /// <param name="row">Its number in the plane.</param>
    /// <param name="values">Its values in DN.</param>
    public void Count(int row, ReadOnlySpan<ushort> values)
    {
        if (row % _rowStride != 0)
        {
            return;
        }

        Count(values);
        if (_isFirst)
        {
            _isFirst = false;
            _rowStride = _dark && _rowStride > 1 && AreFew(values.Length) ? 1 : _rowStride;
        }
    }

    /// <summary>The counts from the lowest code met to the highest.</summary>
    public CodeHistogram ToHistogram()
    {
        Fold();
        int[] counts = _counts[..Codes];
        int first = Array.FindIndex(counts, count => count > 0);
        int last = Array.FindLastIndex(counts, count => count > 0);
        return first < 0 ? new CodeHistogram(0, []) : new CodeHistogram(first, Array.ConvertAll(counts[first..(last + 1)], count => (long)count));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Count(ReadOnlySpan<ushort> values)
    {
        int[] counts = _counts;
        int i = 0;
        for (; i <= values.Length - Tables; i += Tables)
        {
            counts[values[i]]++;
            counts[Codes + values[i + 1]]++;
            counts[(2 * Codes) + values[i + 2]]++;
            counts[(3 * Codes) + values[i + 3]]++;
        }

        for (; i < values.Length; i++)
        {
            counts[values[i]]++;
        }
    }

    /// <summary>All tables' counts in the first one.</summary>
    private void Fold()
    {
        for (int i = Codes; i < Tables * Codes; i++)
        {
            _counts[i % Codes] += _counts[i];
            _counts[i] = 0;
        }
    }

    private bool AreFew(int values)
    {
        Fold();
        return _counts[..Codes].OrderDescending().Take(FewCodes).Sum() >= NearlyAll * values;
    }
}
