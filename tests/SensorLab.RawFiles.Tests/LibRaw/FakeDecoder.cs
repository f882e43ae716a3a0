using System.Runtime.InteropServices;
using SensorLab.RawFiles.LibRaw;

namespace SensorLab.RawFiles.Tests.LibRaw;

/// <summary>
/// Memory arranged as a build of LibRaw might arrange it after decoding the known file: what other versions put between
/// the parts is a matter of parameters.
/// </summary>
internal sealed unsafe class FakeDecoder : IDisposable
{
    private const int TotalBytes = 600_000;
    private const int Parameters = 4096;
    private const int CurveBytes = 2 * LibRawLayout.CurveEntries;
    private const int PatternBytes = 4 * LibRawLayout.BlackPatternWords;

    /// <summary>GRBG: 1, 0, 2, 3 by two bits from the lowest up.</summary>
    private const uint Filters = 0xE1E1E1E1;

    private readonly byte* _data = (byte*)NativeMemory.AllocZeroed(TotalBytes);
    private readonly ushort* _mosaic = (ushort*)NativeMemory.AllocZeroed(2 * ProofDng.WidthPixels * ProofDng.HeightPixels);

    public FakeDecoder(int maskOffset = 60, int filterNamesOffset = 400, int colourOffset = 8192, int otherGap = 1000, int rawGap = 2000)
    {
        MaskOffset = maskOffset;
        FilterNamesOffset = filterNamesOffset;
        BlackOffset = colourOffset + CurveBytes + PatternBytes;
        OtherOffset = BlackOffset + 12 + otherGap;
        RawImageOffset = OtherOffset + rawGap + sizeof(nint);
        WriteSizes();
        WriteParameters();
        WriteColour();
        float* exposure = (float*)(_data + OtherOffset);
        (exposure[0], exposure[1], exposure[2]) = (ProofDng.Iso, ProofDng.ExposureSeconds, ProofDng.FNumber);
        for (int i = 0; i < ProofDng.WidthPixels * ProofDng.HeightPixels; i++)
        {
            _mosaic[i] = ProofDng.CodeAt(i / ProofDng.WidthPixels, i % ProofDng.WidthPixels);
        }

        Word(RawImageOffset) = Word(RawImageOffset - sizeof(nint)) = (nint)_mosaic;
    }

    public int MaskOffset { get; }

    public int FilterNamesOffset { get; }

    public int BlackOffset { get; }

    public int OtherOffset { get; }

    public int RawImageOffset { get; }

    public ref nint Word(int offset) => ref *(nint*)(_data + offset);

    public ref int Number(int offset) => ref *(int*)(_data + offset);

    public ref ushort Code(int index) => ref _mosaic[index];

    public ref int ColourCount => ref Number(Parameters + FilterNamesOffset - 80);

    /// <summary>A second black that reads as the first: then none can be believed.</summary>
    public void RepeatBlack(int gap) => Buffer.MemoryCopy(
        _data + BlackOffset - CurveBytes - PatternBytes,
        _data + BlackOffset + gap,
        CurveBytes + PatternBytes + 12,
        CurveBytes + PatternBytes + 12);

    public LibRawLayout? Find(long otherShift = 0) => LibRawLayout.Find(
        (nint)_data, (nint)(_data + Parameters), (nint)(_data + OtherOffset + otherShift), ProofDng.White, (row, column) => (int)(Filters >> (4 * row) >> (2 * column)) & 3);

    public void Dispose()
    {
        NativeMemory.Free(_data);
        NativeMemory.Free(_mosaic);
    }

    private void WriteSizes()
    {
        ReadOnlySpan<ushort> sizes =
        [
            ProofDng.HeightPixels, ProofDng.WidthPixels, ProofDng.ActiveHeight, ProofDng.ActiveWidth,
            ProofDng.TopMargin, ProofDng.LeftMargin, ProofDng.ActiveHeight, ProofDng.ActiveWidth,
        ];
        sizes.CopyTo(new Span<ushort>(_data + LibRawLayout.SizesOffset, sizes.Length));
        Number(LibRawLayout.SizesOffset + 16) = 2 * ProofDng.WidthPixels;
        ReadOnlySpan<int> mask = [ProofDng.TopMargin, 0, ProofDng.TopMargin + ProofDng.ActiveHeight, ProofDng.MaskRight];
        mask.CopyTo(new Span<int>(_data + MaskOffset, mask.Length));
    }

    private void WriteParameters()
    {
        "Larkmoor"u8.CopyTo(new Span<byte>(_data + Parameters + 4, 64));
        "LM-2"u8.CopyTo(new Span<byte>(_data + Parameters + 68, 64));
        "RGBG\0"u8.CopyTo(new Span<byte>(_data + Parameters + FilterNamesOffset, 8));
        ColourCount = 3;
        Number(Parameters + FilterNamesOffset - 76) = unchecked((int)Filters);
    }

    private void WriteColour()
    {
        ushort* curve = (ushort*)(_data + BlackOffset - PatternBytes - CurveBytes);
        for (int i = 0; i < LibRawLayout.CurveEntries; i++)
        {
            curve[i] = (ushort)i;
        }

        // Common black in one field, what the channels have more in the pattern's first words.
        Number(BlackOffset) = ProofDng.BlackAt(0, 0);
        int* channels = (int*)(_data + BlackOffset - PatternBytes);
        channels[0] = ProofDng.BlackAt(0, 1) - ProofDng.BlackAt(0, 0);
        channels[2] = ProofDng.BlackAt(1, 0) - ProofDng.BlackAt(0, 0);
        channels[3] = ProofDng.BlackAt(1, 1) - ProofDng.BlackAt(0, 0);
        Number(BlackOffset + 8) = ProofDng.White;
    }
}
