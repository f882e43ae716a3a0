namespace SensorLab.Simulation.Writing;

/// <summary>Huffman codes for the symbols of JPEG, the shortest for counts given.</summary>
/// <remarks>ITU-T T.81, annex K.2 (code sizes from counts, none over 16 bits, none all ones) and annex C (codes from sizes).</remarks>
internal sealed class HuffmanTable
{
    private const int LongestCode = 16;

    private HuffmanTable(byte[] codesOfLength, byte[] symbols, int symbolCount)
    {
        CodesOfLength = codesOfLength;
        Symbols = symbols;
        Code = new int[symbolCount];
        Length = new int[symbolCount];
        int code = 0;
        int next = 0;
        for (int length = 1; length <= LongestCode; length++)
        {
            for (int i = 0; i < codesOfLength[length - 1]; i++)
            {
                Code[symbols[next]] = code++;
                Length[symbols[next]] = length;
                next++;
            }

            code <<= 1;
        }
    }

    /// <summary>BITS: how many codes there are of 1 to 16 bits.</summary>
    public byte[] CodesOfLength { get; }

    /// <summary>HUFFVAL: the symbols by rising length of code.</summary>
    public byte[] Symbols { get; }

    /// <summary>The code of a symbol.</summary>
    public int[] Code { get; }

    /// <summary>Bits of the code of a symbol; 0 where it has none.</summary>
    public int[] Length { get; }

    /// <summary>The table for counts of symbols 0 to 255 at most; at least one count is above 0.</summary>
    public static HuffmanTable For(ReadOnlySpan<long> counts)
    {
        int[] sizes = CodeSizes(counts);
        var bits = new int[sizes.Length + LongestCode];
        foreach (int size in sizes.Where(size => size > 0))
        {
            bits[size]++;
        }

        Shorten(bits);
        byte[] symbols =
        [
            .. Enumerable.Range(0, counts.Length)
                .Where(symbol => sizes[symbol] > 0)
                .OrderBy(symbol => sizes[symbol])
                .ThenBy(symbol => symbol)
                .Select(symbol => (byte)symbol),
        ];
        return new HuffmanTable([.. bits.Skip(1).Take(LongestCode).Select(count => (byte)count)], symbols, counts.Length);
    }

    // T.81 figure K.1: the two rarest trees become one until one is left.
    private static int[] CodeSizes(ReadOnlySpan<long> counts)
    {
        // One symbol more than there are, so that the longest code, all ones, can be left unused.
        var weight = new long[counts.Length + 1];
        counts.CopyTo(weight);
        weight[^1] = 1;
        var size = new int[weight.Length];
        int[] tree = [.. Enumerable.Range(0, weight.Length)];
        while (true)
        {
            int first = Rarest(weight, except: -1);
            int second = Rarest(weight, first);
            if (second < 0)
            {
                return size;
            }

            weight[first] += weight[second];
            weight[second] = 0;
            int joined = tree[first];
            int absorbed = tree[second];
            for (int i = 0; i < tree.Length; i++)
            {
                if (tree[i] == joined || tree[i] == absorbed)
                {
                    tree[i] = joined;
                    size[i]++;
                }
            }
        }
    }

    // Of equal counts the highest symbol, so that the reserved one ends among the longest codes.
    private static int Rarest(long[] weight, int except)
    {
        int found = -1;
        for (int i = 0; i < weight.Length; i++)
        {
            if (i != except && weight[i] > 0 && (found < 0 || weight[i] <= weight[found]))
            {
                found = i;
            }
        }

        return found;
    }

    // T.81 figure K.3: pairs of codes over 16 bits move up, then the reserved symbol leaves the longest length.
    private static void Shorten(int[] bits)
    {
        for (int length = bits.Length - 1; length > LongestCode; length--)
        {
            while (bits[length] > 0)
            {
                int shorter = length - 2;
                while (bits[shorter] == 0)
                {
                    shorter--;
                }

                bits[length] -= 2;
                bits[length - 1]++;
                bits[shorter + 1] += 2;
                bits[shorter]--;
            }
        }

        int longest = LongestCode;
        while (bits[longest] == 0)
        {
            longest--;
        }

        bits[longest]--;
    }
}
