using SensorLab.Frames;
using SensorLab.RawFiles.LibRaw;

namespace SensorLab.RawFiles.Tests.LibRaw;

public class RealFilesTests
{
    /// <summary>
    /// Optical-black columns of the CR2 and their published mean and standard deviation. They are given to
    /// 0.01 DN without the rows they were taken from, and leaving out the masked top rows moves both by
    /// 0.01 to 0.02: the active area's rows are taken here, and one unit of the last digit allowed.
    /// </summary>
    private const int FirstBlackColumn = 10;
    private const int LastBlackColumn = 40;
    private const double BlackMeanDn = 127.99;
    private const double BlackDeviationDn = 2.27;
    private const double LastDigitDn = 0.01;

    [Theory]
    [InlineData("canon_eos30d_cr2/IMG_5952.CR2", 3596, 2360, 12)]
    [InlineData("canon_powershot_crw/CRW_0101.CRW", 2376, 1728, 10)]
    [InlineData("canon_powershot_crw/CRW_0104.CRW", 2376, 1728, 10)]
    [InlineData("canon_powershot_crw/CRW_0105.CRW", 2376, 1728, 10)]
    [InlineData("canon_powershot_crw/CRW_0112.CRW", 2376, 1728, 10)]
    [InlineData("canon_powershot_crw/CRW_0113.CRW", 2376, 1728, 10)]
    [InlineData("kodak_kdc/P003908.KDC", 848, 976, 8)]
    [InlineData("kodak_kdc/P003909.KDC", 848, 976, 8)]
    public void Open_RealFile_DecodesWithItsGeometry(string name, int width, int height, int bits)
    {
        _ = LibRawCalls.RequireLibrary();
        string path = SharedData.Require(["real-data", "raw", .. name.Split('/')]);

        using IMosaicReader reader = LibRawMosaicReader.Open(path);
        ushort[] codes = LibRawCalls.ReadAll(reader);

        Assert.Equal((width, height, bits), (reader.Frame.Layout.WidthPixels, reader.Frame.Layout.HeightPixels, reader.Frame.Layout.BitDepth));
        Assert.False(reader.Frame.Layout.ColourFilterArray.IsMonochrome);
        Assert.InRange(codes.Max(), 1, (1 << bits) - 1);
        Assert.True(codes.Distinct().Count() > 30);
    }

    [Fact]
    public void Open_Cr2_OpticalBlackIsAsPublished()
    {
        _ = LibRawCalls.RequireLibrary();
        string path = SharedData.Require("real-data", "raw", "canon_eos30d_cr2", "IMG_5952.CR2");

        using IMosaicReader reader = LibRawMosaicReader.Open(path);
        MosaicLayout geometry = reader.Frame.Layout;
        ushort[] codes = LibRawCalls.ReadAll(reader);
        double[] black = [.. Enumerable.Range(geometry.ActiveArea.Y, geometry.ActiveArea.Height).SelectMany(row =>
            codes[((row * geometry.WidthPixels) + FirstBlackColumn)..((row * geometry.WidthPixels) + LastBlackColumn)]).Select(code => (double)code)];
        double mean = black.Average();
        double deviation = Math.Sqrt(black.Sum(code => (code - mean) * (code - mean)) / (black.Length - 1));

        Assert.InRange(mean, BlackMeanDn - LastDigitDn, BlackMeanDn + LastDigitDn);
        Assert.InRange(deviation, BlackDeviationDn - LastDigitDn, BlackDeviationDn + LastDigitDn);
        Assert.Equal(new PixelRectangle(74, 12, 3522, 2348), geometry.ActiveArea);
        Assert.All(reader.Frame.Declared.BlackDn.Values, declared => Assert.InRange(declared, BlackMeanDn - 1, BlackMeanDn + 1));
        Assert.Contains(geometry.MaskedAreas, mask => mask.X <= FirstBlackColumn && mask.Right >= LastBlackColumn);
        Assert.Equal("lossless", reader.Frame.Metadata.Mode.Compression);
    }

    [Theory]
    [InlineData("DC0008L.KDC")]
    [InlineData("DC0009L.KDC")]
    public void Open_RadialCode_IsUnsuitableAsLossy(string name)
    {
        _ = LibRawCalls.RequireLibrary();
        string path = SharedData.Require("real-data", "raw", "kodak_kdc", name);

        UnsupportedFileException refusal = Assert.Throws<UnsupportedFileException>(() => LibRawMosaicReader.Open(path));

        Assert.True(refusal.IsUnsuitable);
        Assert.Contains("with loss", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_UncompressedFile_IsNotCalledCompanded()
    {
        _ = LibRawCalls.RequireLibrary();
        using IMosaicReader reader = LibRawMosaicReader.Open(SharedData.Require("real-data", "raw", "kodak_kdc", "P003908.KDC"));

        Assert.False(reader.Frame.IsCompanded);
    }

    [Fact]
    public void Open_LossyDng_IsUnsuitable()
    {
        _ = LibRawCalls.RequireLibrary();
        string path = SharedData.Require("real-data", "raw", "dng", "sample_1mp.dng");

        UnsupportedFileException refusal = Assert.Throws<UnsupportedFileException>(() => LibRawMosaicReader.Open(path));

        Assert.True(refusal.IsUnsuitable);
        Assert.Contains("lossy", refusal.Message, StringComparison.Ordinal);
    }
}
