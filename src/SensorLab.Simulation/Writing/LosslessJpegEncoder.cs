using System.Numerics;

namespace SensorLab.Simulation.Writing;

/// <summary>Lossless JPEG: each sample as its difference from a prediction, in Huffman codes made for it.</summary>
/// <remarks>ITU-T T.81, annex H (process 14, sequential, Huffman), annex B for the markers.</remarks>
internal static class LosslessJpegEncoder
{
    private const int LargestClass = 16;

    /// <summary>Encodes a block of samples.</summary>
    /// <param name="samples">Rows × <paramref name="width"/>.</param>
    /// <param name="width">Samples a row, a multiple of the components.</param>
    /// <param name="bits">Bits a sample: 2 to 16.</param>
    /// <param name="form">Predictor, components, tables, restarts.</param>
    /// <returns>From SOI to EOI.</returns>
    public static byte[] Encode(ReadOnlySpan<ushort> samples, int width, int bits, LosslessJpegForm form)
    {
        int rows = samples.Length / width;
        ushort[] differences = Differences(samples, width, bits, form);
        HuffmanTable[] tables = Tables(differences, form);
        var target = new JpegBitWriter(samples.Length + (samples.Length / 2) + 1024);
        WriteHeader(target, width / form.Components, rows, bits, form, tables);
        int restartRows = form.RestartRows ?? rows;
        for (int row = 0; row < rows; row++)
        {
            if (row > 0 && row % restartRows == 0)
            {
                target.AlignWithOnes();
                target.WriteMarker((byte)(0xD0 + (((row / restartRows) - 1) & 7)));
            }

            WriteRow(target, differences.AsSpan(row * width, width), tables);
        }

        target.AlignWithOnes();
        target.WriteMarker(0xD9);
        return target.ToArray();
    }

    /// <summary>The class of a difference modulo 2¹⁶: the bits of its magnitude (T.81 table H.2).</summary>
    private static int ClassOf(ushort difference)
    {
        int signed = (short)difference;
        return LargestClass * 2 - BitOperations.LeadingZeroCount((uint)Math.Abs(signed));
    }

    private static ushort[] Differences(ReadOnlySpan<ushort> samples, int width, int bits, LosslessJpegForm form)
    {
        var differences = new ushort[samples.Length];
        int step = form.Components;
        int restartRows = form.RestartRows ?? int.MaxValue;
        for (int row = 0; row < samples.Length / width; row++)
        {
            ReadOnlySpan<ushort> current = samples.Slice(row * width, width);
            Span<ushort> target = differences.AsSpan(row * width, width);
            bool isFirst = row % restartRows == 0;
            ReadOnlySpan<ushort> above = isFirst ? default : samples.Slice((row - 1) * width, width);
            for (int x = 0; x < width; x++)
            {
                int predicted = x < step
                    ? (isFirst ? 1 << (bits - 1) : above[x])
                    : isFirst ? current[x - step] : Predict(form.Predictor, current[x - step], above[x], above[x - step]);
                target[x] = unchecked((ushort)(current[x] - predicted));
            }
        }

        return differences;
    }

    // T.81 table H.1.
    private static int Predict(int predictor, int left, int above, int aboveLeft) => predictor switch
    {
        1 => left,
        2 => above,
        3 => aboveLeft,
        4 => left + above - aboveLeft,
        5 => left + ((above - aboveLeft) >> 1),
        6 => above + ((left - aboveLeft) >> 1),
        _ => (left + above) >> 1,
    };

    private static HuffmanTable[] Tables(ushort[] differences, LosslessJpegForm form)
    {
        int count = form.HasOneTable ? 1 : form.Components;
        var counts = new long[count][];
        for (int i = 0; i < count; i++)
        {
            counts[i] = new long[LargestClass + 1];
        }

        for (int i = 0; i < differences.Length; i++)
        {
            counts[i % form.Components % count][ClassOf(differences[i])]++;
        }

        HuffmanTable[] made = [.. counts.Select(table => HuffmanTable.For(table))];
        return [.. Enumerable.Range(0, form.Components).Select(component => made[component % count])];
    }

    private static void WriteHeader(JpegBitWriter target, int columns, int rows, int bits, LosslessJpegForm form, HuffmanTable[] tables)
    {
        target.WriteMarker(0xD8);
        int components = form.Components;
        byte[] frame = [(byte)bits, (byte)(rows >> 8), (byte)rows, (byte)(columns >> 8), (byte)columns, (byte)components];
        target.WriteSegment(0xC3, [.. frame, .. Enumerable.Range(0, components).SelectMany(i => new byte[] { (byte)i, 0x11, 0 })]);
        int tableCount = form.HasOneTable ? 1 : components;
        for (int i = 0; i < tableCount; i++)
        {
            target.WriteSegment(0xC4, [(byte)i, .. tables[i].CodesOfLength, .. tables[i].Symbols]);
        }

        if (form.RestartRows is { } restartRows)
        {
            int interval = restartRows * columns;
            target.WriteSegment(0xDD, [(byte)(interval >> 8), (byte)interval]);
        }

        IEnumerable<byte> selectors = Enumerable.Range(0, components).SelectMany(i => new[] { (byte)i, (byte)(i % tableCount << 4) });
        target.WriteSegment(0xDA, [(byte)components, .. selectors, (byte)form.Predictor, 0, 0]);
    }

    private static void WriteRow(JpegBitWriter target, ReadOnlySpan<ushort> differences, HuffmanTable[] tables)
    {
        for (int x = 0; x < differences.Length; x++)
        {
            HuffmanTable table = tables[x % tables.Length];
            ushort difference = differences[x];
            int size = ClassOf(difference);
            target.WriteBits(table.Code[size], table.Length[size]);
            if (size is > 0 and < LargestClass)
            {
                int signed = (short)difference;
                int extra = signed < 0 ? signed - 1 : signed;
                target.WriteBits(extra & ((1 << size) - 1), size);
            }
        }
    }
}
