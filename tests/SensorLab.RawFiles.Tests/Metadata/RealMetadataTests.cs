using SensorLab.Frames;
using SensorLab.RawFiles.Metadata;
using SensorLab.RawFiles.Tests.LibRaw;

namespace SensorLab.RawFiles.Tests.Metadata;

public class RealMetadataTests
{
    [Fact]
    public void Read_Cr2_GivesWhatTheFileSays()
    {
        FrameMetadata metadata = MetadataReader.Read(SharedData.Require("real-data", "raw", "canon_eos30d_cr2", "IMG_5952.CR2"));

        Assert.Equal(640, metadata.Iso);
        Assert.Equal(1.0 / 400, metadata.ExposureSeconds);
        Assert.Equal(22, metadata.ApertureFNumber);
        Assert.Equal("Canon", metadata.Maker);
        Assert.Equal("Canon EOS 30D", metadata.Model);
        Assert.Equal("00D600055", metadata.SerialNumber);
        Assert.Equal("Firmware 1.0.5", metadata.Firmware);
        Assert.False(metadata.FirmwareIsConverter);
        Assert.Equal(new DateTimeOffset(2009, 7, 21, 13, 3, 20, TimeSpan.Zero), metadata.CaptureTime);
        Assert.Equal(MeteringMode.Partial, metadata.Metering);
        Assert.Equal(0, metadata.ExposureCompensationEv);
        Assert.Equal("auto", metadata.WhiteBalance);
        Assert.Equal("Standard", metadata.Look);
        Assert.Equal("EF-S18-55mm f/3.5-5.6", metadata.Lens);
        Assert.Equal(157 - 128, metadata.TemperatureCelsius);
        Assert.Equal("single", metadata.Mode.Drive);
    }

    [Fact]
    public void Read_Kdc_GivesWhatTheFileSays()
    {
        FrameMetadata metadata = MetadataReader.Read(SharedData.Require("real-data", "raw", "kodak_kdc", "P003908.KDC"));

        Assert.Null(metadata.Iso);
        Assert.Equal(91.0 / 25000, metadata.ExposureSeconds);
        Assert.Equal(4, metadata.ApertureFNumber);
        Assert.Equal("DC120 Camera V1.3", metadata.Firmware);
        Assert.False(metadata.FirmwareIsConverter);
        Assert.Equal(new RecordingMode(BitDepth: 8, Compression: "uncompressed"), metadata.Mode);
    }

    [Fact]
    public void Read_ConvertedDng_NamesTheConverterAsOne()
    {
        FrameMetadata lossy = MetadataReader.Read(SharedData.Require("real-data", "raw", "dng", "sample_1mp.dng"));
        FrameMetadata masked = MetadataReader.Read(SharedData.Require("real-data", "raw", "dng", "colorchart.dng"));

        Assert.True(lossy.FirmwareIsConverter);
        Assert.Equal("lossy", lossy.Mode.Compression);
        Assert.Equal(MeteringMode.CentreWeighted, lossy.Metering);
        Assert.True(masked.FirmwareIsConverter);
        Assert.Equal(14, masked.Mode.BitDepth);
        Assert.Null(masked.Iso);
        Assert.Null(masked.ExposureSeconds);
        Assert.Null(masked.CaptureTime);
    }

    [Fact]
    public void Read_ForeignSet_TakesTheBodysVersionAndInventsNoLook()
    {
        FrameMetadata metadata = MetadataReader.Read(SharedData.Require("foreign-sets", "clean", "dark", "P0001.dng"));

        Assert.Equal(100, metadata.Iso);
        Assert.Equal(1.0 / 8000, metadata.ExposureSeconds);
        Assert.Equal("1.1", metadata.Firmware);
        Assert.False(metadata.FirmwareIsConverter);
        Assert.Equal("31008", metadata.SerialNumber);
        Assert.Null(metadata.Look);
        Assert.Equal(new RecordingMode(BitDepth: 16, Compression: "uncompressed"), metadata.Mode);
    }

    [Theory]
    [InlineData("exiftool/FujiFilm.raf", "Digital Camera FinePix S5Pro   Ver1.06", false, "F0/Standard (Provia)")]
    [InlineData("exiftool/Nikon.nef", "Nikon Capture Editor 4.3.1 W", true, null)]
    [InlineData("file-type/fixture-sony-zv-e10.arw", "ZV-E10 v1.00", false, "Standard")]
    [InlineData("tika/testNEF.nef", "Ver.1.00", false, null)]
    [InlineData("exiv2/IMG_1361.dng", "14.3", false, null)]
    public void Read_OtherMakers_TellsFirmwareFromConvertersAndTheLook(string name, string firmware, bool isConverter, string? look)
    {
        FrameMetadata metadata = MetadataReader.Read(SharedData.Require(["real-data", "damaged", .. name.Split('/')]));

        Assert.Equal((firmware, isConverter, look), (metadata.Firmware, metadata.FirmwareIsConverter, metadata.Look));
    }

    [Fact]
    public void Read_DamagedFiles_NeverThrows()
    {
        _ = SharedData.Require("real-data", "damaged");
        foreach (string name in SharedData.List("*", "real-data", "damaged"))
        {
            FrameMetadata metadata = MetadataReader.Read(SharedData.Require("real-data", "damaged", name));

            Assert.True(metadata.Iso is null or > 0, name);
            Assert.True(metadata.ExposureSeconds is null or > 0, name);
        }
    }
}
