using System.Globalization;
using System.Text;

namespace SensorLab.Bench.Sharing;

/// <summary>A QR code of a short address: byte mode, error correction M, versions 1 to 6.</summary>
/// <remarks>After ISO/IEC 18004:2015. 106 bytes at most, several times what an address of ours has.</remarks>
internal sealed class QrCode
{
    /// <summary>The longest text in bytes.</summary>
    public const int MostBytes = 106;

    private const int QuietModules = 4;

    /// <summary>By version from 1: data codewords of a block, correction codewords of a block, blocks (table 9, level M).</summary>
    private static readonly (int Data, int Correction, int Blocks)[] Layouts = [(16, 10, 1), (28, 16, 1), (44, 26, 1), (32, 18, 2), (43, 24, 2), (27, 16, 4)];

    private readonly bool[][] _dark;
    private readonly bool[][] _fixed;

    private QrCode(int version, byte[] codewords)
    {
        Size = 17 + (4 * version);
        _dark = [.. Enumerable.Range(0, Size).Select(_ => new bool[Size])];
        _fixed = [.. Enumerable.Range(0, Size).Select(_ => new bool[Size])];
        DrawPatterns(version);
        DrawData(codewords);
        int best = Enumerable.Range(0, 8).MinBy(mask =>
        {
            Apply(mask);
            DrawFormat(mask);
            int penalty = Penalty();
            Apply(mask);
            return penalty;
        });
        Apply(best);
        DrawFormat(best);
    }

    /// <summary>Modules a side.</summary>
    public int Size { get; }

    /// <summary>Whether a module is dark.</summary>
    public bool this[int row, int column] => _dark[row][column];

    /// <summary>Makes the code of a text.</summary>
    /// <param name="text">The text, written as UTF-8.</param>
    /// <exception cref="ArgumentException">It has more than <see cref="MostBytes"/> bytes.</exception>
    public static QrCode Of(string text)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(text);
        int version = 1 + Array.FindIndex(Layouts, l => bytes.Length + 2 <= l.Data * l.Blocks);
        return version > 0 ? new QrCode(version, Codewords(bytes, Layouts[version - 1])) : throw new ArgumentException("The text is too long for a code of this kind.", nameof(text));
    }

    /// <summary>The code as a picture with its quiet zone, dark on white whatever the page.</summary>
    public byte[] Svg()
    {
        var path = new StringBuilder();
        for (int row = 0; row < Size; row++)
        {
            for (int column = 0; column < Size; column++)
            {
                if (_dark[row][column])
                {
                    path.Append(CultureInfo.InvariantCulture, $"M{column + QuietModules} {row + QuietModules}h1v1h-1z");
                }
            }
        }

        int side = Size + (2 * QuietModules);
        return Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {side} {side}\" shape-rendering=\"crispEdges\"><path fill=\"#fff\" d=\"M0 0h{side}v{side}H0z\"/><path d=\"{path}\"/></svg>"));
    }

    private static byte[] Codewords(byte[] bytes, (int Data, int Correction, int Blocks) layout)
    {
        // Mode 0100 and the length in eight bits shift the text by half a byte.
        byte[] data = new byte[layout.Data * layout.Blocks];
        data[0] = (byte)(0x40 | (bytes.Length >> 4));
        data[1] = (byte)(bytes.Length << 4);
        for (int i = 0; i < bytes.Length; i++)
        {
            data[i + 1] |= (byte)(bytes[i] >> 4);
            data[i + 2] = (byte)(bytes[i] << 4);
        }

        for (int i = bytes.Length + 2, pad = 0; i < data.Length; i++, pad++)
        {
            data[i] = pad % 2 == 0 ? (byte)0xEC : (byte)0x11;
        }

        byte[][] blocks = [.. data.Chunk(layout.Data)];
        byte[][] corrections = [.. blocks.Select(b => Correction(b, layout.Correction))];
        return [.. Interleaved(blocks), .. Interleaved(corrections)];
    }

    private static IEnumerable<byte> Interleaved(byte[][] blocks) => Enumerable.Range(0, blocks[0].Length).SelectMany(i => blocks.Select(b => b[i]));

    // The remainder of the data by the generator polynomial, in GF(256) with x⁸ + x⁴ + x³ + x² + 1.
    private static byte[] Correction(byte[] data, int count)
    {
        byte[] generator = new byte[count];
        generator[^1] = 1;
        byte root = 1;
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j < count; j++)
            {
                generator[j] = (byte)(Product(generator[j], root) ^ (j + 1 < count ? generator[j + 1] : 0));
            }

            root = Product(root, 2);
        }

        byte[] remainder = new byte[count];
        foreach (byte value in data)
        {
            byte factor = (byte)(value ^ remainder[0]);
            Array.Copy(remainder, 1, remainder, 0, count - 1);
            remainder[^1] = 0;
            for (int i = 0; i < count; i++)
            {
                remainder[i] ^= Product(generator[i], factor);
            }
        }

        return remainder;
    }

    private static byte Product(byte one, byte other)
    {
        int product = 0;
        for (int bit = 7; bit >= 0; bit--)
        {
            product = (product << 1) ^ ((product >> 7) * 0x11D);
            product ^= ((other >> bit) & 1) * one;
        }

        return (byte)product;
    }

    private static bool Masks(int mask, int row, int column) => mask switch
    {
        0 => (row + column) % 2 == 0,
        1 => row % 2 == 0,
        2 => column % 3 == 0,
        3 => (row + column) % 3 == 0,
        4 => ((row / 2) + (column / 3)) % 2 == 0,
        5 => (row * column % 2) + (row * column % 3) == 0,
        6 => ((row * column % 2) + (row * column % 3)) % 2 == 0,
        _ => (((row + column) % 2) + (row * column % 3)) % 2 == 0,
    };

    private void Fix(int row, int column, bool dark)
    {
        _dark[row][column] = dark;
        _fixed[row][column] = true;
    }

    private void DrawPatterns(int version)
    {
        for (int i = 0; i < Size; i++)
        {
            Fix(6, i, i % 2 == 0);
            Fix(i, 6, i % 2 == 0);
        }

        DrawFinder(3, 3);
        DrawFinder(3, Size - 4);
        DrawFinder(Size - 4, 3);
        if (version > 1)
        {
            DrawAlignment(Size - 7, Size - 7);
        }

        DrawFormat(0);
    }

    private void DrawFinder(int centreRow, int centreColumn)
    {
        for (int r = -4; r <= 4; r++)
        {
            for (int c = -4; c <= 4; c++)
            {
                int ring = Math.Max(Math.Abs(r), Math.Abs(c));
                if (centreRow + r >= 0 && centreRow + r < Size && centreColumn + c >= 0 && centreColumn + c < Size)
                {
                    Fix(centreRow + r, centreColumn + c, ring is not (2 or 4));
                }
            }
        }
    }

    private void DrawAlignment(int centreRow, int centreColumn)
    {
        for (int r = -2; r <= 2; r++)
        {
            for (int c = -2; c <= 2; c++)
            {
                Fix(centreRow + r, centreColumn + c, Math.Max(Math.Abs(r), Math.Abs(c)) != 1);
            }
        }
    }

    // Level M is 00; ten bits of a BCH code follow, and all are masked (7.9.1).
    private void DrawFormat(int mask)
    {
        int remainder = mask;
        for (int i = 0; i < 10; i++)
        {
            remainder = (remainder << 1) ^ ((remainder >> 9) * 0x537);
        }

        int bits = ((mask << 10) | remainder) ^ 0x5412;
        bool Bit(int i) => ((bits >> i) & 1) != 0;
        for (int i = 0; i < 15; i++)
        {
            Fix(i < 6 ? i : i < 8 ? i + 1 : Size - 15 + i, 8, Bit(i));
            Fix(8, i < 8 ? Size - 1 - i : i == 8 ? 7 : 14 - i, Bit(i));
        }

        Fix(Size - 8, 8, true);
    }

    private void DrawData(byte[] codewords)
    {
        int bit = 0;
        for (int right = Size - 1; right >= 1; right -= 2)
        {
            right = right == 6 ? 5 : right;
            bool isUp = ((right + 1) & 2) == 0;
            for (int step = 0; step < Size; step++)
            {
                int row = isUp ? Size - 1 - step : step;
                for (int column = right; column > right - 2; column--)
                {
                    if (!_fixed[row][column] && bit < 8 * codewords.Length)
                    {
                        _dark[row][column] = ((codewords[bit / 8] >> (7 - (bit % 8))) & 1) != 0;
                        bit++;
                    }
                }
            }
        }
    }

    private void Apply(int mask)
    {
        for (int row = 0; row < Size; row++)
        {
            for (int column = 0; column < Size; column++)
            {
                _dark[row][column] ^= !_fixed[row][column] && Masks(mask, row, column);
            }
        }
    }

    // 7.8.3: runs, blocks, what looks like a finder, and the balance of dark and light.
    private int Penalty()
    {
        int penalty = 0;
        for (int line = 0; line < Size; line++)
        {
            int at = line;
            penalty += LinePenalty(i => _dark[at][i]) + LinePenalty(i => _dark[i][at]);
        }

        int dark = 0;
        for (int row = 0; row < Size; row++)
        {
            for (int column = 0; column < Size; column++)
            {
                dark += _dark[row][column] ? 1 : 0;
                bool isBlock = row > 0 && column > 0 && _dark[row][column] == _dark[row - 1][column] && _dark[row][column] == _dark[row][column - 1] && _dark[row][column] == _dark[row - 1][column - 1];
                penalty += isBlock ? 3 : 0;
            }
        }

        return penalty + (10 * (int)(Math.Abs((20.0 * dark / (Size * Size)) - 10)));
    }

    private int LinePenalty(Func<int, bool> dark)
    {
        int penalty = 0;
        int run = 0;
        int recent = 0;
        for (int i = 0; i < Size; i++)
        {
            run = i > 0 && dark(i) == dark(i - 1) ? run + 1 : 1;
            penalty += run == 5 ? 3 : run > 5 ? 1 : 0;
            recent = ((recent << 1) | (dark(i) ? 1 : 0)) & 0x7FF;
            penalty += i >= 10 && recent is 0b10111010000 or 0b00001011101 ? 40 : 0;
        }

        return penalty;
    }
}
