using System.Buffers.Binary;
using System.Diagnostics;
using SensorLab.Frames;
using SensorLab.RawFiles.LibRaw;
using SensorLab.RawFiles.Metadata;
using SensorLab.RawFiles.Tests.LibRaw;

namespace SensorLab.RawFiles.Tests.Metadata;

public class WrittenMetadataTests
{
    private const int MainDirectory = 8;
    private const int ExifDirectory = 1000;

    /// <summary>Seconds: a hostile file of 40 MB may not take longer, a hundred times what a real one takes.</summary>
    private const double HostileSeconds = 20;

    [Theory]
    [InlineData(100, 0, 0, 0, 100)]
    [InlineData(65535, 204800, 0, 0, 204800)]
    [InlineData(65535, 0, 102400, 0, 102400)]
    [InlineData(65535, 0, 0, 409600, 409600)]
    [InlineData(0, 0, 0, 0, null)]
    public void Iso_ShortTagOrItsEscape_ComesFromTheTagThatHoldsIt(int shortIso, int recommended, int standardOutput, int isoSpeed, int? expected)
    {
        FrameMetadata metadata = Read(exif: directory =>
        {
            directory.Short(34855, (ushort)shortIso);
            directory.Long(34865, standardOutput);
            directory.Long(34866, recommended);
            directory.Long(34867, isoSpeed);
        });

        Assert.Equal(expected, metadata.Iso);
    }

    [Theory]
    [InlineData(1, 3, 1.0 / 3)]
    [InlineData(10, 8000, 10.0 / 8000)]
    [InlineData(30, 1, 30.0)]
    [InlineData(0, 1, null)]
    [InlineData(1, 0, null)]
    public void ExposureSeconds_Rational_IsItsExactQuotient(int numerator, int denominator, double? expected) =>
        Assert.Equal(expected, Read(exif: directory => directory.Rational(33434, numerator, denominator)).ExposureSeconds);

    [Fact]
    public void ApertureFNumber_LensWithoutContacts_IsZeroAndIndeterminateIsNull()
    {
        Assert.Equal(0, Read(exif: directory => directory.Rational(33437, 0, 10)).ApertureFNumber);
        Assert.Null(Read(exif: directory => directory.Rational(33437, 0, 0)).ApertureFNumber);
        Assert.Equal(4, Read(exif: directory => directory.Rational(37378, 4, 1)).ApertureFNumber);
    }

    [Theory]
    [InlineData("2026:03:02 10:00:01", "+01:00", "25", "2026-03-02T10:00:01.25+01:00")]
    [InlineData("2026:03:02 10:00:01", "-03:30", null, "2026-03-02T10:00:01-03:30")]
    [InlineData("2026:03:02 10:00:01", null, null, "2026-03-02T10:00:01Z")]
    [InlineData("2026:03:02 10:00:01", "   :  ", "", "2026-03-02T10:00:01Z")]
    [InlineData("2026:03:02 10:00:01", "+99:00", "x", "2026-03-02T10:00:01Z")]
    [InlineData("0001:01:01 00:00:00", "+01:00", null, null)]
    [InlineData("0000:00:00 00:00:00", null, null, null)]
    [InlineData("    :  :     :  :  ", null, null, null)]
    public void CaptureTime_TextsOfTheTags_AreHonouredOrUtc(string time, string? offset, string? subSecond, string? expected)
    {
        DateTimeOffset? read = Read(exif: directory =>
        {
            directory.Text(36867, time);
            if (offset is not null)
            {
                directory.Text(36881, offset);
            }

            if (subSecond is not null)
            {
                directory.Text(37521, subSecond);
            }
        }).CaptureTime;

        Assert.Equal(expected is null ? null : DateTimeOffset.Parse(expected, System.Globalization.CultureInfo.InvariantCulture), read);
        Assert.Equal(expected is null ? null : DateTimeOffset.Parse(expected, System.Globalization.CultureInfo.InvariantCulture).Offset, read?.Offset);
    }

    [Theory]
    [InlineData("1.1", false)]
    [InlineData("Ver.1.00 ", false)]
    [InlineData("LM-2 Ver.2.10", false)]
    [InlineData("Larkmoor LM-2 firmware v3.0b", false)]
    [InlineData("Lampwright Developer 4.2", true)]
    [InlineData("Larkmoor Darkroom 2", true)]
    [InlineData("rawpress", true)]
    public void FirmwareIsConverter_SoftwareTag_IsJudgedByItsWords(string software, bool expected)
    {
        FrameMetadata metadata = Read(main: directory => directory.Text(305, software));

        Assert.Equal((software.Trim(), expected), (metadata.Firmware, metadata.FirmwareIsConverter));
    }

    [Fact]
    public void Texts_HostileBytes_StayTextAndAreBounded()
    {
        FrameMetadata metadata = Read(main: directory =>
        {
            directory.Text(305, "  1.1 \0rest");
            directory.Text(42033, new string('\t', 3) + "<b>7\u001b[31m</b>" + new string('x', 3000));
        });

        Assert.Equal("1.1", metadata.Firmware);
        Assert.StartsWith("<b>7[31m</b>xxx", metadata.SerialNumber, StringComparison.Ordinal);
        Assert.Equal(TagValues.LongestTextCharacters, metadata.SerialNumber!.Length);
    }

    [Fact]
    public void MeteringAndCompensation_ExifTags_AreRead()
    {
        FrameMetadata metadata = Read(exif: directory =>
        {
            directory.Short(37383, 3);
            directory.Rational(37380, 2, 3);
            directory.Short(41987, 1);
            directory.Text(42036, "Skerry 50");
        });

        Assert.Equal(MeteringMode.Spot, metadata.Metering);
        Assert.Equal(2.0 / 3, metadata.ExposureCompensationEv);
        Assert.Equal("manual", metadata.WhiteBalance);
        Assert.Equal("Skerry 50", metadata.Lens);
        Assert.Equal(MeteringMode.Unknown, Read(exif: directory => directory.Short(37383, 200)).Metering);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Read_EndlessChainOfDirectories_EndsInTime(bool isNested)
    {
        const int DirectoryBytes = 18;
        byte[] file = new byte[40_000_000];
        "II*\0\u0008\0\0\0"u8.CopyTo(file);
        for (int at = MainDirectory; at + (2 * DirectoryBytes) < file.Length; at += DirectoryBytes)
        {
            // One entry each: a pointer to the next directory, or a harmless one with the next directory behind it.
            BinaryPrimitives.WriteUInt16LittleEndian(file.AsSpan(at), 1);
            BinaryPrimitives.WriteUInt16LittleEndian(file.AsSpan(at + 2), (ushort)(isNested ? 34665 : 256));
            BinaryPrimitives.WriteUInt16LittleEndian(file.AsSpan(at + 4), 4);
            BinaryPrimitives.WriteInt32LittleEndian(file.AsSpan(at + 6), 1);
            BinaryPrimitives.WriteInt32LittleEndian(file.AsSpan(at + 10), isNested ? at + DirectoryBytes : 1);
            BinaryPrimitives.WriteInt32LittleEndian(file.AsSpan(at + 14), isNested ? 0 : at + DirectoryBytes);
        }

        Stopwatch watch = Stopwatch.StartNew();
        FrameMetadata metadata = LibRawCalls.WithFile(file, "a.dng", MetadataReader.Read);

        Assert.Equal(new FrameMetadata(), metadata);
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, HostileSeconds);
    }

    [Fact]
    public void Read_FileIsMissing_SaysSo() =>
        Assert.Throws<FileNotFoundException>(() => MetadataReader.Read(Path.Combine(AppContext.BaseDirectory, "absent.dng")));

    [Fact]
    public void Read_WrittenFileCutOrDamagedAnywhere_NeverThrows()
    {
        byte[] whole = ProofDng.Encode()[..1024];
        Random random = new(1405);
        for (int trial = 0; trial < 300; trial++)
        {
            byte[] damaged = whole[..random.Next(whole.Length)];
            for (int change = 0; change < 8 && damaged.Length > 0; change++)
            {
                damaged[random.Next(damaged.Length)] = (byte)random.Next(256);
            }

            FrameMetadata metadata = LibRawCalls.WithFile(damaged, "a.dng", MetadataReader.Read);

            Assert.True(metadata.Iso is null or > 0);
        }
    }

    private static FrameMetadata Read(Action<TiffDirectoryWriter>? main = null, Action<TiffDirectoryWriter>? exif = null)
    {
        byte[] file = new byte[16384];
        "II*\0\u0008\0\0\0"u8.CopyTo(file);
        TiffDirectoryWriter mainDirectory = new(file, MainDirectory, 2000);
        mainDirectory.Text(271, ProofDng.Maker);
        mainDirectory.Text(272, ProofDng.Model);
        main?.Invoke(mainDirectory);
        mainDirectory.Long(34665, ExifDirectory);
        TiffDirectoryWriter exifDirectory = new(file, ExifDirectory, mainDirectory.Close());
        exif?.Invoke(exifDirectory);
        _ = exifDirectory.Close();
        return LibRawCalls.WithFile(file, "a.dng", MetadataReader.Read);
    }
}
