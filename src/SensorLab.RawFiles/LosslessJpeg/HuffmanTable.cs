using SensorLab.Frames;

namespace SensorLab.RawFiles.LosslessJpeg;

/// <summary>A Huffman table of difference categories, laid out for one lookup a code.</summary>
/// <remarks>ITU-T T.81, annexes C (codes from lengths), F.2.2.3 (decoding) and H.1.2.2 (categories 0 to 16).</remarks>
internal sealed class HuffmanTable
{
    /// <summary>Bits that the lookup resolves: longer codes are rarer than one in thousands.</summary>
    public const int LookupBits = 12;

    /// <summary>The category without extra bits whose difference is 32768.</summary>
    public const int WholeRangeCategory = 16;

    private const int LongestCode = 16;
    private const ushort NoCode = 0;

    private readonly byte[] _categories;
    private readonly int[] _lastCode = new int[LongestCode + 1];
    private readonly int[] _categoryOffset = new int[LongestCode + 1];

    /// <summary>Builds the table.</summary>
    /// <param name="codesOfLength">How many codes have 1, 2 … 16 bits.</param>
    /// <param name="categories">The categories in order of their codes, as many as there are codes.</param>
    /// <exception cref="MalformedFileException">The lengths over-subscribe the code space, or a category is above 16.</exception>
    public HuffmanTable(ReadOnlySpan<byte> codesOfLength, ReadOnlySpan<byte> categories)
    {
        _categories = categories.ToArray();
        int code = 0;
        int index = 0;
        for (int length = 1; length <= LongestCode; length++)
        {
            int count = codesOfLength[length - 1];
            if (code + count > 1 << length)
            {
                throw new MalformedFileException("A Huffman table has more codes than its lengths leave room for.");
            }

            _categoryOffset[length] = index - code;
            for (int i = 0; i < count; i++)
            {
                Enter(code++, length, _categories[index++]);
            }

            _lastCode[length] = code - 1;
            code <<= 1;
        }
    }

    /// <summary>By the next <see cref="LookupBits"/> bits: code length × 256 + category; 0 where <see cref="Find"/> must look.</summary>
    public ushort[] Lookup { get; } = new ushort[1 << LookupBits];

    /// <summary>The most bits of a code with its extra bits.</summary>
    public int MostBits { get; private set; }

    /// <summary>Extra bits behind a code.</summary>
    /// <param name="category">The code's category.</param>
    public static int ExtraBitsOf(int category) => category == WholeRangeCategory ? 0 : category;

    /// <summary>Finds a code that the lookup does not hold.</summary>
    /// <param name="bits">The next bits, the first one highest.</param>
    /// <returns>The code's length and its category.</returns>
    /// <exception cref="MalformedFileException">No code of the table starts these bits.</exception>
    public (int Length, int Category) Find(ulong bits)
    {
        for (int length = 1; length <= LongestCode; length++)
        {
            int code = (int)(bits >> (64 - length));
            int index = code + _categoryOffset[length];
            if (code <= _lastCode[length] && index >= 0 && index < _categories.Length)
            {
                return (length, _categories[index]);
            }
        }

        throw new MalformedFileException("The lossless JPEG data hold a code that is in no Huffman table.");
    }

    private void Enter(int code, int length, byte category)
    {
        if (category > WholeRangeCategory)
        {
            throw new MalformedFileException($"A Huffman table names the difference category {category}; 16 is the highest.");
        }

        MostBits = Math.Max(MostBits, length + ExtraBitsOf(category));
        if (length > LookupBits)
        {
            return;
        }

        int spare = LookupBits - length;
        ushort entry = category == WholeRangeCategory ? NoCode : (ushort)((length << 8) | category);
        Lookup.AsSpan(code << spare, 1 << spare).Fill(entry);
    }
}
