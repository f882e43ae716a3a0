using System.Numerics;

namespace SensorLab.Simulation.Writing;

/// <summary>Baseline JPEG of a neutral picture: three components of which two are constant.</summary>
/// <remarks>ITU-T T.81, annex F (baseline, sequential), A.3.3 for the cosine transform, JFIF 1.02 for the marker that says Y, Cb, Cr.</remarks>
internal static class BaselineJpegEncoder
{
    private const int Side = 8;
    private const int BlockSize = Side * Side;
    private const int Components = 3;

    // Fine enough that the codes of a flat field come back to a quarter of a code; high frequencies coarser.
    private const int FinestStep = 2;

    private static readonly int[] ZigZag = BuildZigZag();
    private static readonly double[] Cosine = BuildCosine();

    /// <summary>Encodes a neutral picture.</summary>
    /// <param name="codes">Rows × <paramref name="width"/>, 0 to 255.</param>
    /// <param name="width">Columns.</param>
    public static byte[] Encode(ReadOnlySpan<byte> codes, int width)
    {
        int height = codes.Length / width;
        List<int[]> blocks = Blocks(codes, width, height);
        var dcCounts = new long[256];
        var acCounts = new long[256];
        CountSymbols(blocks, dcCounts, acCounts);
        HuffmanTable dc = HuffmanTable.For(dcCounts);
        HuffmanTable ac = HuffmanTable.For(acCounts);
        var target = new JpegBitWriter(codes.Length + 1024);
        WriteHeader(target, width, height, dc, ac);
        int last = 0;
        foreach (int[] block in blocks)
        {
            ForEachSymbol(block, last, (isDc, symbol, bits) => WriteSymbol(target, isDc ? dc : ac, symbol, bits));
            last = block[0];
            for (int i = 1; i < Components; i++)
            {
                WriteSymbol(target, dc, 0, 0);
                WriteSymbol(target, ac, 0, 0);
            }
        }

        target.AlignWithOnes();
        target.WriteMarker(0xD9);
        return target.ToArray();
    }

    private static void CountSymbols(List<int[]> blocks, long[] dc, long[] ac)
    {
        int last = 0;
        foreach (int[] block in blocks)
        {
            ForEachSymbol(block, last, (isDc, symbol, _) => (isDc ? dc : ac)[symbol]++);
            last = block[0];
        }

        // The constant components: no difference, end of block.
        dc[0] += 2 * blocks.Count;
        ac[0] += 2 * blocks.Count;
    }

    // T.81 F.1.2: the difference of the first coefficient, then runs of zeros with the coefficient that ends them.
    private static void ForEachSymbol(int[] block, int lastDc, Action<bool, int, int> tell)
    {
        int difference = block[0] - lastDc;
        tell(true, SizeOf(difference), difference);
        int run = 0;
        for (int i = 1; i < BlockSize; i++)
        {
            if (block[i] == 0)
            {
                run++;
                continue;
            }

            for (; run >= 16; run -= 16)
            {
                tell(false, 0xF0, 0);
            }

            tell(false, (run << 4) | SizeOf(block[i]), block[i]);
            run = 0;
        }

        if (run > 0)
        {
            tell(false, 0, 0);
        }
    }

    private static int SizeOf(int value) => 32 - BitOperations.LeadingZeroCount((uint)Math.Abs(value));

    private static void WriteSymbol(JpegBitWriter target, HuffmanTable table, int symbol, int value)
    {
        target.WriteBits(table.Code[symbol], table.Length[symbol]);
        int size = symbol & 15;
        if (size > 0)
        {
            target.WriteBits((value < 0 ? value - 1 : value) & ((1 << size) - 1), size);
        }
    }

    private static void WriteHeader(JpegBitWriter target, int width, int height, HuffmanTable dc, HuffmanTable ac)
    {
        target.WriteMarker(0xD8);
        target.WriteSegment(0xE0, [.. "JFIF\0"u8, 1, 2, 0, 0, 1, 0, 1, 0, 0]);
        target.WriteSegment(0xDB, [0, .. Enumerable.Range(0, BlockSize).Select(i => (byte)Step(ZigZag[i]))]);
        byte[] size = [8, (byte)(height >> 8), (byte)height, (byte)(width >> 8), (byte)width, Components];
        target.WriteSegment(0xC0, [.. size, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0]);
        target.WriteSegment(0xC4, [0x00, .. dc.CodesOfLength, .. dc.Symbols]);
        target.WriteSegment(0xC4, [0x10, .. ac.CodesOfLength, .. ac.Symbols]);
        target.WriteSegment(0xDA, [Components, 1, 0, 2, 0, 3, 0, 0, 63, 0]);
    }

    private static List<int[]> Blocks(ReadOnlySpan<byte> codes, int width, int height)
    {
        var blocks = new List<int[]>();
        Span<double> samples = stackalloc double[BlockSize];
        for (int y = 0; y < height; y += Side)
        {
            for (int x = 0; x < width; x += Side)
            {
                for (int i = 0; i < BlockSize; i++)
                {
                    int row = Math.Min(y + (i / Side), height - 1);
                    int column = Math.Min(x + (i % Side), width - 1);
                    samples[i] = codes[(row * width) + column] - 128;
                }

                blocks.Add(Transformed(samples));
            }
        }

        return blocks;
    }

    private static int[] Transformed(ReadOnlySpan<double> samples)
    {
        Span<double> halfway = stackalloc double[BlockSize];
        Span<double> coefficients = stackalloc double[BlockSize];
        Rotate(samples, halfway);
        Rotate(halfway, coefficients);
        var block = new int[BlockSize];
        for (int i = 0; i < BlockSize; i++)
        {
            block[i] = (int)Math.Round(coefficients[ZigZag[i]] / Step(ZigZag[i]));
        }

        return block;
    }

    // One dimension of the transform; the result is turned, so that two of them make both dimensions.
    private static void Rotate(ReadOnlySpan<double> from, Span<double> to)
    {
        for (int row = 0; row < Side; row++)
        {
            for (int u = 0; u < Side; u++)
            {
                double sum = 0;
                for (int x = 0; x < Side; x++)
                {
                    sum += from[(row * Side) + x] * Cosine[(u * Side) + x];
                }

                to[(u * Side) + row] = sum;
            }
        }
    }

    private static int Step(int coefficient) => FinestStep + (coefficient / Side) + (coefficient % Side);

    private static double[] BuildCosine()
    {
        var table = new double[BlockSize];
        for (int i = 0; i < BlockSize; i++)
        {
            int u = i / Side;
            double scale = u == 0 ? Math.Sqrt(0.125) : 0.5;
            table[i] = scale * Math.Cos(((2 * (i % Side)) + 1) * u * Math.PI / 16);
        }

        return table;
    }

    // T.81 figure A.6: along the diagonals, up and down in turn.
    private static int[] BuildZigZag() =>
    [
        .. Enumerable.Range(0, BlockSize)
            .OrderBy(i => (i / Side) + (i % Side))
            .ThenBy(i => ((i / Side) + (i % Side)) % 2 == 0 ? i % Side : i / Side),
    ];
}
