namespace SensorLab.RawFiles.Tests.Support;

/// <summary>
/// Encodes lossless JPEG for tests, plainly from ITU-T T.81, annexes C and H: one bit after the other, one pixel after
/// the other. It shares nothing with the decoder.
/// </summary>
internal sealed record LosslessJpegEncoder
{
    public const int Categories = 17;

    public int Components { get; init; } = 1;

    public int Precision { get; init; } = 16;

    public int Predictor { get; init; } = 1;

    public int PointTransform { get; init; }

    /// <summary>Lines from restart marker to restart marker, 0 without.</summary>
    public int LinesPerRestart { get; init; }

    /// <summary>Code lengths by category, one array a component; the last serves further components. Null: from the image.</summary>
    public int[][]? CodeLengths { get; init; }

    /// <summary>Codes a line of so many samples, all components together.</summary>
    public byte[] Encode(ushort[] samples, int lineLength, int lines)
    {
        int[] shifted = [.. samples.Select(sample => sample >> PointTransform)];
        int[] differences = DifferencesOf(shifted, lineLength, lines);
        int[][] lengths = CodeLengths ?? [LengthsFor(differences)];
        var codes = lengths.Select(CodesOf).ToArray();
        var file = new List<byte> { 0xFF, 0xD8 };
        WriteHeaders(file, lengths, lineLength / Components, lines);
        var bits = new BitWriter(file);
        for (int i = 0; i < differences.Length; i++)
        {
            int line = i / lineLength;
            if (LinesPerRestart > 0 && line > 0 && i % lineLength == 0 && line % LinesPerRestart == 0)
            {
                bits.Flush();
                file.AddRange([0xFF, (byte)(0xD0 + (((line / LinesPerRestart) - 1) % 8))]);
            }

            int table = Math.Min(i % Components, lengths.Length - 1);
            WriteDifference(bits, differences[i], codes[table], lengths[table]);
        }

        bits.Flush();
        file.AddRange([0xFF, 0xD9]);
        return [.. file];
    }

    /// <summary>Where a marker stands.</summary>
    public static int IndexOf(byte[] image, byte marker) => image.AsSpan().IndexOf((ReadOnlySpan<byte>)[0xFF, marker]);

    /// <summary>Every category under a code of the same length.</summary>
    public static int[] EvenLengths() => [.. Enumerable.Repeat(5, Categories)];

    /// <summary>Lengths from 1 to 16, so that some categories have codes as long as can be.</summary>
    /// <param name="first">The category with the shortest code.</param>
    public static int[] DeepLengths(int first)
    {
        var lengths = new int[Categories];
        for (int i = 0; i < Categories; i++)
        {
            lengths[(first + i) % Categories] = i < 14 ? i + 1 : 16;
        }

        return lengths;
    }

    /// <summary>Table H.1, and the exceptions for first lines and first samples of H.1.1.</summary>
    private int[] DifferencesOf(int[] x, int lineLength, int lines)
    {
        var differences = new int[x.Length];
        for (int line = 0; line < lines; line++)
        {
            for (int column = 0; column < lineLength; column++)
            {
                int i = (line * lineLength) + column;
                bool isFirstLine = line == 0 || (LinesPerRestart > 0 && line % LinesPerRestart == 0);
                bool isFirstColumn = column < Components;
                int a = isFirstColumn ? 0 : x[i - Components];
                int b = isFirstLine ? 0 : x[i - lineLength];
                int c = isFirstColumn || isFirstLine ? 0 : x[i - lineLength - Components];
                int predicted = (isFirstLine, isFirstColumn) switch
                {
                    (true, true) => 1 << (Precision - PointTransform - 1),
                    (true, false) => a,
                    (false, true) => b,
                    _ => Predictor switch
                    {
                        1 => a,
                        2 => b,
                        3 => c,
                        4 => a + b - c,
                        5 => a + ((b - c) >> 1),
                        6 => b + ((a - c) >> 1),
                        _ => (a + b) >> 1,
                    },
                };

                // H.1.2.1: modulo 65536, from −32767 to 32768.
                int difference = (x[i] - predicted) & 0xFFFF;
                differences[i] = difference > 32768 ? difference - 65536 : difference;
            }
        }

        return differences;
    }

    private void WriteHeaders(List<byte> file, int[][] lengths, int samplesPerLine, int lines)
    {
        for (int table = 0; table < lengths.Length; table++)
        {
            byte[] categories = [.. OrderOf(lengths[table]).Select(category => (byte)category)];
            byte[] counts = [.. Enumerable.Range(1, 16).Select(length => (byte)lengths[table].Count(l => l == length))];
            WriteSegment(file, 0xC4, [(byte)table, .. counts, .. categories]);
        }

        byte[] frame = [(byte)Precision, (byte)(lines >> 8), (byte)lines, (byte)(samplesPerLine >> 8), (byte)samplesPerLine, (byte)Components];
        WriteSegment(file, 0xC3, [.. frame, .. Enumerable.Range(0, Components).SelectMany(i => new byte[] { (byte)(i + 1), 0x11, 0 })]);
        if (LinesPerRestart > 0)
        {
            int interval = LinesPerRestart * samplesPerLine;
            WriteSegment(file, 0xDD, [(byte)(interval >> 8), (byte)interval]);
        }

        var tables = Enumerable.Range(0, Components).SelectMany(i => new[] { (byte)(i + 1), (byte)(Math.Min(i, lengths.Length - 1) << 4) });
        WriteSegment(file, 0xDA, [(byte)Components, .. tables, (byte)Predictor, 0, (byte)PointTransform]);
    }

    private static void WriteSegment(List<byte> file, byte marker, byte[] body) =>
        file.AddRange([0xFF, marker, (byte)((body.Length + 2) >> 8), (byte)(body.Length + 2), .. body]);

    private static void WriteDifference(BitWriter bits, int difference, int[] codes, int[] lengths)
    {
        int category = CategoryOf(difference);
        bits.Write(codes[category], lengths[category]);
        if (category is > 0 and < 16)
        {
            bits.Write(difference < 0 ? difference + (1 << category) - 1 : difference, category);
        }
    }

    private static int CategoryOf(int difference)
    {
        int category = 0;
        for (int size = Math.Abs(difference); size > 0; size >>= 1)
        {
            category++;
        }

        return category;
    }

    private static IEnumerable<int> OrderOf(int[] lengths) =>
        Enumerable.Range(0, Categories).Where(category => lengths[category] > 0).OrderBy(category => lengths[category]);

    /// <summary>Annex C: codes of one length count up, and double where the length grows.</summary>
    private static int[] CodesOf(int[] lengths)
    {
        var codes = new int[Categories];
        int code = 0;
        int length = 1;
        foreach (int category in OrderOf(lengths))
        {
            code <<= lengths[category] - length;
            length = lengths[category];
            codes[category] = code++;
        }

        return codes;
    }

    /// <summary>Huffman's own lengths, rare categories made common enough that no code passes 16 bits.</summary>
    private static int[] LengthsFor(int[] differences)
    {
        var counts = new long[Categories];
        foreach (int difference in differences)
        {
            counts[CategoryOf(difference)]++;
        }

        // One leaf more, so that no category gets the code of ones alone, which is forbidden.
        var queue = new PriorityQueue<int[], long>([([Categories], 0)]);
        for (int category = 0; category < Categories; category++)
        {
            if (counts[category] > 0)
            {
                queue.Enqueue([category], Math.Max(counts[category], differences.Length / 2000));
            }
        }

        var lengths = new int[Categories + 1];
        while (queue.TryDequeue(out int[]? least, out long leastCount) && queue.TryDequeue(out int[]? next, out long nextCount))
        {
            int[] both = [.. least, .. next];
            foreach (int category in both)
            {
                lengths[category]++;
            }

            queue.Enqueue(both, leastCount + nextCount);
        }

        return lengths[..Categories];
    }

    private sealed class BitWriter(List<byte> file)
    {
        private int _byte;
        private int _count;

        public void Write(int value, int bits)
        {
            for (int bit = bits - 1; bit >= 0; bit--)
            {
                _byte = (_byte << 1) | ((value >> bit) & 1);
                if (++_count == 8)
                {
                    file.Add((byte)_byte);
                    if (_byte == 0xFF)
                    {
                        file.Add(0);
                    }

                    _byte = _count = 0;
                }
            }
        }

        public void Flush()
        {
            while (_count > 0)
            {
                Write(1, 1);
            }
        }
    }
}
