namespace SensorLab.Simulation.Writing;

/// <summary>Huffman codes for the seventeen classes of differences, the shortest for counts given.</summary>
/// <remarks>ITU-T T.81, annex K.2 (code sizes from counts, none over 16 bits, none all ones) and annex C (codes from sizes).</remarks>
internal sealed class HuffmanTable
{
    private const int Classes = 17;
    private const int LongestCode = 16;

    // Annex K.2 keeps the longest code free of all ones by counting one more symbol.
    private const int Reserved = Classes;

    private HuffmanTable(byte[] codesOfLength, byte[] symbols)
    {
        CodesOfLength = codesOfLength;
        Symbols = symbols;
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

    /// <summary>HUFFVAL: the classes by rising length of code.</summary>
    public byte[] Symbols { get; }

    /// <summary>The code of a class.</summary>
    public int[] Code { get; } = new int[Classes];

    /// <summary>Bits of the code of a class; 0 where it has none.</summary>
    public int[] Length { get; } = new int[Classes];

    /// <summary>The table for counts of the classes 0 to 16.</summary>
    public static HuffmanTable For(ReadOnlySpan<long> counts)
    {
        int[] sizes = CodeSizes(counts);
        var bits = new int[(2 * Classes) + 1];
        foreach (int size in sizes.Where(size => size > 0))
        {
            bits[size]++;
        }

        Shorten(bits);
        byte[] symbols =
        [
            .. Enumerable.Range(0, Classes)
                .Where(symbol => sizes[symbol] > 0)
                .OrderBy(symbol => sizes[symbol])
                .ThenBy(symbol => symbol)
                .Select(symbol => (byte)symbol),
        ];
        return new HuffmanTable([.. bits.Skip(1).Take(LongestCode).Select(count => (byte)count)], symbols);
    }

    // T.81 figure K.1: the two rarest trees become one until one is left.
    private static int[] CodeSizes(ReadOnlySpan<long> counts)
    {
        var weight = new long[Classes + 1];
        counts.CopyTo(weight);
        weight[Reserved] = 1;
        var size = new int[Classes + 1];
        int[] tree = [.. Enumerable.Range(0, Classes + 1)];
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
            for (int i = 0; i <= Classes; i++)
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
