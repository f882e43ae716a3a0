using SensorLab.Frames;
using SensorLab.RawFiles.Tests.Support;

namespace SensorLab.RawFiles.Tests;

public sealed class RawFileOpenerTests
{
    [Theory]
    [InlineData("P0001.DNG", true)]
    [InlineData("a/b/P0001.cr3", true)]
    [InlineData("P0001.jpg", false)]
    [InlineData("frames.csv", false)]
    [InlineData("dng", false)]
    public void IsRawFile_Name_GoesByItsSuffix(string path, bool expected) => Assert.Equal(expected, RawFileOpener.IsRawFile(path));

    [Fact]
    public void Open_DngUnderAMakersName_IsReadByItsContent()
    {
        using var file = new TemporaryFile(TestDng.Random(16, 12, 14).ToBytes(), ".arw");
        using IMosaicReader reader = RawFileOpener.Open(file.Path);

        Assert.Equal(16, reader.Frame.Layout.WidthPixels);
    }

    [Fact]
    public void Open_PlainTiffWithARawImage_IsReadWhereNoMakerIsNamed()
    {
        byte[] bytes = (TestDng.Random(16, 12, 14) with { First = first => first.Without(TestDng.DngVersion) }).ToBytes();
        using var file = new TemporaryFile(bytes, ".tif");
        using IMosaicReader reader = RawFileOpener.Open(file.Path);

        Assert.Equal(12, reader.Frame.Layout.HeightPixels);
    }

    [Fact]
    public void ContentKeyOf_SamePixelsOtherMetadata_IsTheSame()
    {
        TestDng dng = TestDng.Random(300, 200, 16) with { RowsPerStrip = 3 };
        using TemporaryFile one = dng.ToFile();
        using TemporaryFile same = (dng with { Exif = exif => exif.Rationals(33434, (1, 2)), First = first => first.Text(305, "another") }).ToFile();
        using TemporaryFile other = (TestDng.Random(300, 200, 16, seed: 2) with { RowsPerStrip = 3 }).ToFile();

        Assert.Equal(RawFileOpener.ContentKeyOf(one.Path), RawFileOpener.ContentKeyOf(same.Path));
        Assert.NotEqual(RawFileOpener.ContentKeyOf(one.Path), RawFileOpener.ContentKeyOf(other.Path));
    }

    [Fact]
    public void ContentKeyOf_OtherFile_IsOfItsBytes()
    {
        using var one = new TemporaryFile([.. Enumerable.Range(0, 100_000).Select(i => (byte)(i % 251))], ".cr3");
        using var other = new TemporaryFile([.. Enumerable.Range(0, 100_000).Select(i => (byte)(i % 241))], ".cr3");

        Assert.NotEqual(RawFileOpener.ContentKeyOf(one.Path), RawFileOpener.ContentKeyOf(other.Path));
    }

    [Fact]
    public void Open_MissingFile_IsAnInputOutputError() =>
        Assert.ThrowsAny<IOException>(() => RawFileOpener.Open(Path.Combine(Path.GetTempPath(), "no-such-frame.dng")));
}
