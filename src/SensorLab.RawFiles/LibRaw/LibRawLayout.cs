using System.Runtime.InteropServices;

namespace SensorLab.RawFiles.LibRaw;

/// <summary>
/// Where one build of LibRaw keeps what its C interface has no call for. Every part is found by looking for
/// the known content of <see cref="ProofDng"/> and believed only where it is there, once; the parts that are
/// not found are null, and readers do without them.
/// </summary>
/// <remarks>
/// LibRaw's structures put <c>image</c> and <c>sizes</c> first, and <c>imgother</c>, the thumbnail and
/// <c>rawdata</c> behind the colour data, in all versions from 0.20; the lengths between differ by version and system.
/// </remarks>
internal sealed unsafe record LibRawLayout
{
    /// <summary>libraw_image_sizes_t follows the pointer <c>image</c>; its first eight fields are 16-bit.</summary>
    public const int SizesOffset = 8;

    /// <summary>Fields of a colour data structure before <c>black</c>: LIBRAW_CBLACK_SIZE words, 65,536 curve entries.</summary>
    public const int BlackPatternWords = 4104;

    /// <summary>Entries of the linearisation curve.</summary>
    public const int CurveEntries = 65536;

    private const int PitchOffset = SizesOffset + 16;
    private const int MaskSearchBytes = 160;
    private const int ParametersSearchBytes = 600;
    private const int MakerOffset = 4;
    private const int ModelOffset = 68;
    private const int RawSearchBytes = 8192;
    private const int NullPointersBehindRaw = 7;

    /// <summary>Five times what the structures take in 0.20.</summary>
    private const int MostStructureBytes = 1 << 21;

    /// <summary>Programs' addresses have 47 bits on the systems that LibRaw is built for; other words are no pointers.</summary>
    private const long HighestAddress = 1L << 47;

    /// <summary>Offset of <c>cdesc</c> in libraw_iparams_t.</summary>
    public required int FilterNamesOffset { get; init; }

    /// <summary>Offset of <c>rawdata.raw_image</c> in libraw_data_t: the whole mosaic.</summary>
    public int? RawImageOffset { get; init; }

    /// <summary>Offset of <c>color.black</c> in libraw_data_t; the pattern and the curve lie before it.</summary>
    public int? BlackOffset { get; init; }

    /// <summary>Offset of <c>sizes.mask</c> in libraw_data_t: eight rectangles of top, left, bottom, right.</summary>
    public int? MaskOffset { get; init; }

    /// <summary>Whether iso_speed, shutter and aperture open libraw_imgother_t.</summary>
    public bool HasExposure { get; init; }

    /// <summary>Whether make and model stand where they are expected in libraw_iparams_t.</summary>
    public bool HasNames { get; init; }

    /// <summary>Offset of <c>colors</c> in libraw_iparams_t: before filters and the two 6×6 patterns.</summary>
    public int ColourCountOffset => FilterNamesOffset - 80;

    /// <summary>Reads the rows' pitch in bytes.</summary>
    public static int PitchBytes(nint data) => *(int*)(data + PitchOffset);

    /// <summary>Reads the name of the maker or the model.</summary>
    public static string Name(nint parameters, bool isModel) =>
        Marshal.PtrToStringAnsi(parameters + (isModel ? ModelOffset : MakerOffset)) ?? "";

    /// <summary>Decodes the known file with a library and looks for its content.</summary>
    /// <param name="library">A library that is bound already.</param>
    /// <returns>What is proven, or null where not even sizes and filters are.</returns>
    public static LibRawLayout? Prove(LibRawLibrary library)
    {
        byte[] file = ProofDng.Encode();
        fixed (byte* pinned = file)
        {
            using LibRawHandle handle = library.Create();
            nint data = handle.Data;
            if (nint.Size != 8 || library.OpenBuffer(data, (nint)pinned, file.Length) != LibRawStatus.Success ||
                library.Unpack(data) != LibRawStatus.Success)
            {
                return null;
            }

            return Find(data, library.Parameters(data), library.Other(data), library.Maximum(data), (row, column) => library.ColourAt(data, row, column));
        }
    }

    /// <summary>Looks for the known file's content in a decoder's structures.</summary>
    /// <param name="data">The libraw_data_t, in which the known file is decoded.</param>
    /// <param name="parameters">Its libraw_iparams_t.</param>
    /// <param name="other">Its libraw_imgother_t.</param>
    /// <param name="maximum">Its white level.</param>
    /// <param name="colourAt">The filter's index at a row and column of its visible area.</param>
    /// <returns>What is proven, or null where not even sizes and filters are.</returns>
    internal static LibRawLayout? Find(nint data, nint parameters, nint other, int maximum, Func<int, int, int> colourAt)
    {
        // One structure holds all, in this order; were it cut up, what lies between its parts would be nobody's to read.
        bool isOneStructure = parameters > data && other > parameters && other - data < MostStructureBytes;
        if (!isOneStructure || !SizesAreProven(data) || FilterNames(parameters, colourAt) is not int names)
        {
            return null;
        }

        float* exposure = (float*)other;
        return new LibRawLayout
        {
            FilterNamesOffset = names,
            MaskOffset = Mask(data),
            BlackOffset = Black(data, parameters, other, maximum),
            RawImageOffset = RawImage(data, other),
            HasExposure = exposure[0] == ProofDng.Iso && exposure[1] == ProofDng.ExposureSeconds && exposure[2] == ProofDng.FNumber,
            HasNames = Name(parameters, isModel: false) == ProofDng.Maker && Name(parameters, isModel: true) == ProofDng.Model,
        };
    }

    private static bool SizesAreProven(nint data)
    {
        ReadOnlySpan<ushort> expected =
        [
            ProofDng.HeightPixels, ProofDng.WidthPixels, ProofDng.ActiveHeight, ProofDng.ActiveWidth,
            ProofDng.TopMargin, ProofDng.LeftMargin, ProofDng.ActiveHeight, ProofDng.ActiveWidth,
        ];
        return new ReadOnlySpan<ushort>((void*)(data + SizesOffset), expected.Length).SequenceEqual(expected) &&
            PitchBytes(data) == 2 * ProofDng.WidthPixels;
    }

    private static int? FilterNames(nint parameters, Func<int, int, int> colourAt)
    {
        int offset = new ReadOnlySpan<byte>((void*)parameters, ParametersSearchBytes).IndexOf("RGBG\0"u8);
        if (offset < 80 || *(int*)(parameters + offset - 80) != 3)
        {
            return null;
        }

        uint filters = *(uint*)(parameters + offset - 76);
        for (int site = 0; site < 4; site++)
        {
            int row = site / 2;
            int column = site % 2;
            if (colourAt(row, column) != ((filters >> (4 * row) >> (2 * column)) & 3))
            {
                return null;
            }
        }

        return offset;
    }

    private static int? Mask(nint data)
    {
        ReadOnlySpan<int> expected =
            [ProofDng.TopMargin, 0, ProofDng.TopMargin + ProofDng.ActiveHeight, ProofDng.MaskRight];
        int index = new ReadOnlySpan<int>((void*)(data + SizesOffset), MaskSearchBytes / sizeof(int)).IndexOf(expected);
        return index < 0 ? null : SizesOffset + (index * sizeof(int));
    }

    private static int? Black(nint data, nint parameters, nint other, int maximum)
    {
        int? found = null;
        nint first = parameters + (CurveEntries * sizeof(ushort)) + (BlackPatternWords * sizeof(int));
        for (nint at = first; at <= other - (3 * sizeof(int)); at += sizeof(int))
        {
            if (((int*)at)[2] != maximum || maximum != ProofDng.White)
            {
                continue;
            }

            LibRawBlack black = new((uint*)at);
            if (black.CurveIsIdentity() && Sites().All(site => black.At(site.Row, site.Column, site.Colour) == ProofDng.BlackAt(site.Row, site.Column)))
            {
                if (found is not null)
                {
                    return null;
                }

                found = (int)(at - data);
            }
        }

        return found;
    }

    private static IEnumerable<(int Row, int Column, int Colour)> Sites() =>
        [(0, 0, 1), (0, 1, 0), (1, 0, 2), (1, 1, 3)];

    /// <summary>
    /// Only a word that appears twice with null words behind it is taken for the pointer and followed:
    /// raw_alloc and raw_image are the same here, the pointers to other kinds of mosaic null.
    /// </summary>
    private static int? RawImage(nint data, nint other)
    {
        for (nint at = other; at < other + RawSearchBytes; at += sizeof(nint))
        {
            nint* words = (nint*)at;
            if (words[0] > 65536 && words[0] < HighestAddress && words[0] == words[1] && (words[0] & 1) == 0 &&
                !new ReadOnlySpan<nint>(words + 2, NullPointersBehindRaw).ContainsAnyExcept(0) && HoldsTheMosaic((ushort*)words[1]))
            {
                return (int)(at + sizeof(nint) - data);
            }
        }

        return null;
    }

    private static bool HoldsTheMosaic(ushort* mosaic)
    {
        for (int i = 0; i < ProofDng.WidthPixels * ProofDng.HeightPixels; i++)
        {
            if (mosaic[i] != ProofDng.CodeAt(i / ProofDng.WidthPixels, i % ProofDng.WidthPixels))
            {
                return false;
            }
        }

        return true;
    }
}
