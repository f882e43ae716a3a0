using System.Buffers.Binary;
using SensorLab.Frames;
using SensorLab.RawFiles.LibRaw;

namespace SensorLab.RawFiles.Tests.LibRaw;

public class MosaicKindsTests
{
    private const int FirstEntry = 10;
    private const int EntryBytes = 12;
    private const ushort PhotometricTag = 262;
    private const ushort PatternTag = 33422;
    private const ushort LinearRaw = 34892;

    [Theory]
    [InlineData(new byte[] { 0, 1, 1, 2 }, "RGGB")]
    [InlineData(new byte[] { 2, 1, 1, 0 }, "BGGR")]
    [InlineData(new byte[] { 1, 0, 2, 1 }, "GRBG")]
    [InlineData(new byte[] { 1, 2, 0, 1 }, "GBRG")]
    public void Open_BayerOrders_AreNamedFromTheActiveAreasTopLeft(byte[] pattern, string name)
    {
        _ = LibRawCalls.RequireLibrary();
        byte[] file = ProofDng.Encode();
        pattern.CopyTo(Value(file, PatternTag));

        string? read = LibRawCalls.WithFile(file, "a.dng", path =>
        {
            using IMosaicReader reader = LibRawMosaicReader.Open(path);
            return reader.Frame.Layout.ColourFilterArray.Name;
        });

        Assert.Equal(name, read);
    }

    [Theory]
    [InlineData(new byte[] { 0, 0, 1, 0 })]
    [InlineData(new byte[] { 3, 1, 4, 5 })]
    public void Open_OtherFilters_IsUnsuitableWithTheReason(byte[] pattern)
    {
        _ = LibRawCalls.RequireLibrary();
        byte[] file = ProofDng.Encode();
        pattern.CopyTo(Value(file, PatternTag));

        UnsupportedFileException refusal = LibRawCalls.WithFile(file, "a.dng", path =>
            Assert.Throws<UnsupportedFileException>(() => LibRawMosaicReader.Open(path)));

        Assert.True(refusal.IsUnsuitable);
        Assert.Contains("red, green and blue", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_OneSampleWithoutFilters_IsMonochrome()
    {
        _ = LibRawCalls.RequireLibrary();
        byte[] file = ProofDng.Encode();
        BinaryPrimitives.WriteUInt16LittleEndian(Value(file, PhotometricTag), LinearRaw);

        LibRawCalls.WithFile(file, "a.dng", path =>
        {
            using IMosaicReader reader = LibRawMosaicReader.Open(path);
            ushort[] codes = LibRawCalls.ReadAll(reader);

            Assert.True(reader.Frame.Layout.ColourFilterArray.IsMonochrome);
            Assert.All(Enumerable.Range(0, codes.Length), i => Assert.Equal(ProofDng.CodeAt(i / ProofDng.WidthPixels, i % ProofDng.WidthPixels), codes[i]));
            return 0;
        });
    }

    [Fact]
    public void FromName_KindsOfCoding_AreTold()
    {
        Assert.Equal("lossless", LibRawDecoder.FromName("lossless_dng_load_raw()").Compression);
        Assert.Equal("uncompressed", LibRawDecoder.FromName("unpacked_load_raw()").Compression);
        Assert.NotNull(LibRawDecoder.FromName("uncompressed_fp_dng_load_raw()").Unsuitable);
        Assert.NotNull(LibRawDecoder.FromName("any_load_sraw()").Unsuitable);
        Assert.Null(LibRawDecoder.FromName("any_load_raw()").Compression);
        Assert.Null(LibRawDecoder.FromName("any_load_raw()").Unsuitable);
    }

    private static Span<byte> Value(byte[] file, ushort tag)
    {
        int entry = FirstEntry;
        while (BinaryPrimitives.ReadUInt16LittleEndian(file.AsSpan(entry)) != tag)
        {
            entry += EntryBytes;
        }

        return file.AsSpan(entry + 8, 4);
    }
}
