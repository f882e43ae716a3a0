using System.Runtime.CompilerServices;
using SensorLab.Frames;

namespace SensorLab.RawFiles.LosslessJpeg;

/// <summary>A Huffman table of difference categories, laid out for one lookup a code.</summary>
/// <remarks>ITU-T T.81, annexes C (codes from lengths), F.2.2.3 (decoding) and H.1.2.2 (categories 0 to 16).</remarks>
internal sealed class HuffmanTable
{
    /// <summary>Bits that the lookup resolves: longer codes are rarer than one in a thousand, and the table stays in the cache.</summary>
    public const int LookupBits = 12;

    /// <summary>Bits of an entry that say how many bits to take, code and extra ones together.</summary>
    public const int TotalMask = 63;

    /// <summary>Where an entry's number of extra bits starts.</summary>
    public const int CategoryShift = 6;

    /// <summary>The number of extra bits, 0 to 15.</summary>
    public const int CategoryMask = 15;

    /// <summary>Marks an entry whose difference is 32768: category 16, which has no extra bits.</summary>
    public const int WholeRange = 1 << 15;

    private const int WholeRangeCategory = 16;
    private const int LongestCode = 16;

    private readonly byte[] _codesOfLength;
    private readonly byte[] _categories;
    private readonly int[] _lastCode = new int[LongestCode + 1];
    private readonly int[] _categoryOffset = new int[LongestCode + 1];

    /// <summary>Builds the table.</summary>
    /// <param name="codesOfLength">How many codes have 1, 2 … 16 bits.</param>
    /// <param name="categories">The categories in order of their codes, as many as there are codes.</param>
    /// <exception cref="MalformedFileException">The lengths over-subscribe the code space, or a category is above 16.</exception>
    public HuffmanTable(ReadOnlySpan<byte> codesOfLength, ReadOnlySpan<byte> categories)
    {
        _codesOfLength = codesOfLength.ToArray();
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

    /// <summary>
    /// Entries by the next <see cref="LookupBits"/> bits: all bits to take, extra bits, <see cref="WholeRange"/>;
    /// 0 where <see cref="Find"/> must look.
    /// </summary>
    public ushort[] Lookup { get; } = new ushort[1 << LookupBits];

    /// <summary>The most bits of a code with its extra bits.</summary>
    public int MostBits { get; private set; }

    /// <summary>Whether this is the table of such codes: a file's tiles mostly repeat theirs.</summary>
    /// <param name="codesOfLength">How many codes have 1, 2 … 16 bits.</param>
    /// <param name="categories">The categories in order of their codes.</param>
    public bool IsOf(ReadOnlySpan<byte> codesOfLength, ReadOnlySpan<byte> categories) =>
        codesOfLength.SequenceEqual(_codesOfLength) && categories.SequenceEqual(_categories);

    /// <summary>Finds a code that the lookup does not hold.</summary>
    /// <param name="bits">The next bits, the first one highest.</param>
    /// <returns>An entry as in <see cref="Lookup"/>.</returns>
    /// <exception cref="MalformedFileException">No code of the table starts these bits.</exception>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public int Find(ulong bits)
    {
        for (int length = 1; length <= LongestCode; length++)
        {
            int code = (int)(bits >> (64 - length));
            int index = code + _categoryOffset[length];
            if (code <= _lastCode[length] && index >= 0 && index < _categories.Length)
            {
                return EntryOf(length, _categories[index]);
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

        int entry = EntryOf(length, category);
        MostBits = Math.Max(MostBits, entry & TotalMask);
        if (length <= LookupBits)
        {
            int spare = LookupBits - length;
            Lookup.AsSpan(code << spare, 1 << spare).Fill((ushort)entry);
        }
    }

    private static int EntryOf(int length, int category) =>
        category == WholeRangeCategory ? length | WholeRange : (length + category) | (category << CategoryShift);
}
