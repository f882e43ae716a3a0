using SensorLab.RawFiles.LibRaw;

namespace SensorLab.RawFiles.Tests.LibRaw;

/// <summary>The proof of LibRaw's layout on arrangements that no installed version has.</summary>
public sealed class LibRawLayoutTests
{
    [Theory]
    [InlineData(60, 400, 8192, 1000, 2000)]
    [InlineData(100, 436, 9000, 64, 24)]
    [InlineData(44, 216, 5120, 100_000, 8000)]
    public void Find_PartsElsewhere_FindsEach(int mask, int names, int colour, int otherGap, int rawGap)
    {
        using var decoder = new FakeDecoder(mask, names, colour, otherGap, rawGap);
        LibRawLayout layout = decoder.Find()!;

        Assert.Equal(
            (decoder.FilterNamesOffset, decoder.MaskOffset, decoder.BlackOffset, decoder.RawImageOffset),
            (layout.FilterNamesOffset, layout.MaskOffset, layout.BlackOffset, layout.RawImageOffset));
        Assert.True(layout.HasExposure && layout.HasNames);
    }

    [Fact]
    public void Find_MosaicThatDiffersInOneCode_IsNotBelieved()
    {
        using var decoder = new FakeDecoder();
        decoder.Code(5000)++;

        Assert.Null(decoder.Find()!.RawImageOffset);
    }

    [Fact]
    public void Find_EqualWordsThatAreNoPointers_AreNotFollowed()
    {
        using var decoder = new FakeDecoder();
        nint one = (nint)BitConverter.DoubleToInt64Bits(1.0);
        decoder.Word(decoder.RawImageOffset) = decoder.Word(decoder.RawImageOffset - 8) = one;

        Assert.Null(decoder.Find()!.RawImageOffset);
    }

    [Fact]
    public void Find_BlackInTwoPlaces_IsNotBelieved()
    {
        using var decoder = new FakeDecoder(otherGap: 200_000);
        decoder.RepeatBlack(1000);

        Assert.Null(decoder.Find()!.BlackOffset);
    }

    [Fact]
    public void Find_WhiteOrExposureElsewhere_LeavesThatPartOut()
    {
        using var decoder = new FakeDecoder();
        decoder.Number(decoder.BlackOffset + 8) = ProofDng.White + 1;
        decoder.Number(decoder.OtherOffset) = 0;
        LibRawLayout layout = decoder.Find()!;

        Assert.Null(layout.BlackOffset);
        Assert.False(layout.HasExposure);
        Assert.NotNull(layout.RawImageOffset);
    }

    [Fact]
    public void Find_SizesFiltersOrStructureUnlike_ProvesNothing()
    {
        using var decoder = new FakeDecoder();
        Assert.Null(decoder.Find(otherShift: 1L << 32));
        Assert.Null(decoder.Find(otherShift: -(decoder.OtherOffset - 1)));
        decoder.ColourCount = 4;
        Assert.Null(decoder.Find());
        decoder.ColourCount = 3;
        decoder.Number(LibRawLayout.SizesOffset)++;
        Assert.Null(decoder.Find());
    }
}
