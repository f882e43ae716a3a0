using System.IO.Compression;
using SensorLab.Frames;
using SensorLab.RawFiles.Dng;
using SensorLab.RawFiles.Tests.Support;

namespace SensorLab.RawFiles.Tests.Dng;

public sealed class DngCompressionTests
{
    [Theory]
    [InlineData(1, false)]
    [InlineData(2, false)]
    [InlineData(2, true)]
    [InlineData(4, true)]
    public void ReadRows_LosslessJpeg_GivesWhatWasEncoded(int components, bool isTiled)
    {
        var encoder = new LosslessJpegEncoder { Components = components, Precision = 14, Predictor = 1 };
        TestDng dng = TestDng.Random(72, 40, 14) with
        {
            Compression = 7,
            Bits = 16,
            IsBehindPreview = true,
            RowsPerStrip = 16,
            Tile = isTiled ? (32, 16) : null,
            Coder = (samples, width, height) => encoder.Encode(samples, width, height),
        };

        Assert.Equal(dng.Samples, Mosaics.ReadAll(dng));
        Assert.Equal(dng.Samples, Mosaics.ReadAll(dng, rowsAtOnce: 5));
        Assert.Equal("lossless", Mosaics.FrameOf(dng).Metadata.Mode.Compression);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    public void ReadRows_LosslessJpegOfOtherLines_IsCutIntoRowsAnew(int factor)
    {
        // Two rows side by side in a line of the JPEG image, as some bodies fold them; and rows cut in parts.
        var encoder = new LosslessJpegEncoder { Components = 2, Precision = 14, Predictor = 6 };
        TestDng dng = TestDng.Random(64, 32, 14) with { Compression = 7, Tile = (32, 16) };

        Assert.Equal(dng.Samples, Mosaics.ReadAll(dng with { Coder = (samples, width, height) => encoder.Encode(samples, width * factor, height / factor) }, rowsAtOnce: 3));
        Assert.Equal(dng.Samples, Mosaics.ReadAll(dng with { Coder = (samples, width, height) => encoder.Encode(samples, width / factor, height * factor) }, rowsAtOnce: 3));
    }

    [Theory]
    [InlineData(8, 1, 0)]
    [InlineData(12, 1, 0)]
    [InlineData(16, 1, 0)]
    [InlineData(8, 2, 1)]
    [InlineData(16, 2, 1)]
    [InlineData(16, 34892, 2)]
    [InlineData(16, 34893, 4)]
    public void ReadRows_Deflate_GivesWhatWasDeflated(int bits, int predictor, int distance)
    {
        foreach (bool isBigEndian in new[] { false, true })
        {
            TestDng dng = Deflated(bits, predictor, distance) with { IsBigEndian = isBigEndian };
            dng = dng with { Coder = Deflater(dng, distance) };

            Assert.Equal(dng.Samples, Mosaics.ReadAll(dng));
            Assert.Equal(dng.Samples, Mosaics.ReadAll(dng with { Tile = (32, 16) }, rowsAtOnce: 7));
            Assert.Equal("deflate", Mosaics.FrameOf(dng).Metadata.Mode.Compression);
        }
    }

    [Theory]
    [InlineData(1, 0)]
    [InlineData(2, 1)]
    public void ReadRows_Deflate_AgreesWithLibTiff(int predictor, int distance)
    {
        TestDng dng = Deflated(16, predictor, distance);
        using TemporaryFile file = (dng with { Coder = Deflater(dng, distance), IsBehindPreview = true }).ToFile();
        using DngMosaicReader reader = DngMosaicReader.Open(file.Path);

        Assert.Equal(TiffOracle.ReadAll(file.Path, dng.Width, dng.Height), Mosaics.ReadAll(reader));
    }

    [Fact]
    public void ReadRows_DeflateThatEndsEarly_IsDamage()
    {
        TestDng dng = Deflated(16, 1, 0);
        SegmentCoder deflate = Deflater(dng, 0);

        Assert.Throws<MalformedFileException>(() => Mosaics.ReadAll(dng with { Coder = (samples, width, height) => deflate(samples, width, height)[..^20] }));
        Assert.Throws<MalformedFileException>(() => Mosaics.ReadAll(dng with { Coder = (samples, width, height) => [1, 2, 3, .. deflate(samples, width, height)] }));
    }

    [Fact]
    public void Open_FloatingPointPredictor_IsRefused()
    {
        TestDng dng = Deflated(16, 3, 0) with { Raw = raw => raw.Shorts(317, 3).Shorts(339, 3) };

        Assert.True(Assert.Throws<UnsupportedFileException>(() => Mosaics.FrameOf(dng)).IsUnsuitable);
    }

    [Fact]
    public void Open_LossyJpegUnderTheLosslessTag_IsRefused()
    {
        var encoder = new LosslessJpegEncoder { Precision = 8 };
        TestDng dng = TestDng.Random(32, 16, 8) with
        {
            Compression = 7,
            Coder = (samples, width, height) =>
            {
                byte[] image = encoder.Encode(samples, width, height);
                image[LosslessJpegEncoder.IndexOf(image, 0xC3) + 1] = 0xC0;
                return image;
            },
        };

        Assert.True(Assert.Throws<UnsupportedFileException>(() => Mosaics.FrameOf(dng)).IsUnsuitable);
    }

    [Fact]
    public void ReadRows_JpegOfAnotherSizeThanItsTile_IsDamage()
    {
        var encoder = new LosslessJpegEncoder { Precision = 14 };
        TestDng dng = TestDng.Random(64, 32, 14) with
        {
            Compression = 7,
            Tile = (32, 16),
            Coder = (samples, width, height) => encoder.Encode(samples[..(24 * height)], 24, height),
        };

        Assert.Throws<MalformedFileException>(() => Mosaics.ReadAll(dng));
    }

    [Fact]
    public void ReadRows_CompressedAndTruncatedAtTwoHundredPlaces_EndsInANamedError()
    {
        var encoder = new LosslessJpegEncoder { Components = 2, Precision = 14 };
        byte[] good = (TestDng.Random(64, 48, 14) with
        {
            Compression = 7,
            Tile = (32, 16),
            Coder = (samples, width, height) => encoder.Encode(samples, width, height),
        }).ToBytes();
        for (int i = 0; i < 200; i++)
        {
            using var file = new TemporaryFile(good[..(good.Length * i / 200)]);

            Assert.Throws<MalformedFileException>(() => DngMosaicReader.Open(file.Path).Dispose());
        }
    }

    private static TestDng Deflated(int bits, int predictor, int distance) => TestDng.Random(50, 34, bits, seed: distance) with
    {
        Compression = 8,
        RowsPerStrip = 8,
        Raw = raw => raw.Shorts(317, predictor),
    };

    private static SegmentCoder Deflater(TestDng dng, int distance) => (samples, width, height) =>
    {
        ushort[] differences = [.. samples];
        for (int i = 0; i < samples.Length && distance > 0; i++)
        {
            if (i % width >= distance)
            {
                differences[i] = (ushort)((samples[i] - samples[i - distance]) & ((1 << dng.Bits) - 1));
            }
        }

        var target = new MemoryStream();
        using (var stream = new ZLibStream(target, CompressionLevel.Optimal))
        {
            stream.Write(dng.Pack(differences, width, height));
        }

        return target.ToArray();
    };
}
