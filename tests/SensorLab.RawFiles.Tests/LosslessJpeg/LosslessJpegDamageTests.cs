using System.Diagnostics;
using CsCheck;
using SensorLab.Frames;
using SensorLab.RawFiles.Tests.Support;

namespace SensorLab.RawFiles.Tests.LosslessJpeg;

public sealed class LosslessJpegDamageTests
{
    /// <summary>Generous on a busy machine; what is guarded against are hangs.</summary>
    private const double MostSeconds = 10;

    private static readonly LosslessJpegEncoder Encoder = new() { Components = 2, Precision = 12, Predictor = 5, LinesPerRestart = 4 };
    private static readonly byte[] Good = Encoder.Encode(LosslessJpegDecoderTests.Noise(40 * 20, 12, seed: 1), 40, 20);

    [Fact]
    public void Decode_TruncatedAnywhere_IsDamage()
    {
        // The end marker itself, and the last byte's padding, are not missed.
        for (int length = 0; length < Good.Length - 3; length++)
        {
            Assert.Throws<MalformedFileException>(() => LosslessJpegDecoderTests.Decode(Good[..length]));
        }
    }

    [Fact]
    public void Decode_BytesChanged_EndsSoonInANamedErrorOrAnImage() =>
        Gen.Select(Gen.Int[0, Good.Length - 1], Gen.Byte).Array[1, 12].Sample(
            changes =>
            {
                byte[] bytes = [.. Good];
                foreach ((int at, byte value) in changes)
                {
                    bytes[at] = value;
                }

                return EndsWell(bytes);
            },
            iter: 5000);

    [Fact]
    public void Decode_AnyBytesBehindAHeader_EndsSoonInANamedErrorOrAnImage()
    {
        int dataStart = LosslessJpegEncoder.IndexOf(Good, 0xDA) + 2 + 10;
        Gen.Byte.Array[0, 2000].Sample(data => EndsWell([.. Good[..dataStart], .. data]), iter: 2000);
    }

    [Theory]
    [InlineData(0xC0, true)]
    [InlineData(0xC2, true)]
    [InlineData(0xC7, false)]
    [InlineData(0xCB, false)]
    public void Decode_AnotherProcess_IsRefused(byte marker, bool isUnsuitable)
    {
        byte[] bytes = [.. Good];
        bytes[LosslessJpegEncoder.IndexOf(bytes, 0xC3) + 1] = marker;

        Assert.Equal(isUnsuitable, Assert.Throws<UnsupportedFileException>(() => LosslessJpegDecoderTests.Decode(bytes)).IsUnsuitable);
    }

    [Theory]
    [InlineData(0, 0x11, "bits")] // precision 17
    [InlineData(1, 0xFF, "more samples")] // 65,300 lines
    [InlineData(5, 0, "components")]
    [InlineData(5, 5, "components")]
    public void Decode_FrameThatLies_IsDamage(int at, byte value, string reason)
    {
        byte[] bytes = [.. Good];
        bytes[LosslessJpegEncoder.IndexOf(bytes, 0xC3) + 4 + at] = value;

        Assert.Contains(reason, Assert.Throws<MalformedFileException>(() => LosslessJpegDecoderTests.Decode(bytes)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Decode_TableWithTooManyCodes_IsDamage()
    {
        byte[] bytes = [.. Good];
        bytes[LosslessJpegEncoder.IndexOf(bytes, 0xC4) + 5] = 3;

        Assert.Throws<MalformedFileException>(() => LosslessJpegDecoderTests.Decode(bytes));
    }

    [Fact]
    public void Decode_RestartInsideALine_IsDamage()
    {
        byte[] bytes = [.. Good];
        bytes[LosslessJpegEncoder.IndexOf(bytes, 0xDD) + 5]++;

        Assert.Contains("inside a line", Assert.Throws<MalformedFileException>(() => LosslessJpegDecoderTests.Decode(bytes)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Decode_RestartMarkerOfAnotherNumber_IsDamage()
    {
        byte[] bytes = [.. Good];
        bytes[LosslessJpegEncoder.IndexOf(bytes, 0xD1) + 1] = 0xD3;

        Assert.Contains("Restart marker 1", Assert.Throws<MalformedFileException>(() => LosslessJpegDecoderTests.Decode(bytes)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Decode_FillBytesWithoutEnd_IsDamageSoon()
    {
        byte[] bytes = new byte[8 << 20];
        Array.Fill(bytes, (byte)0xFF);
        bytes[1] = 0xD8;

        Assert.True(EndsWell(bytes));
        Assert.Throws<MalformedFileException>(() => LosslessJpegDecoderTests.Decode(bytes));
    }

    private static bool EndsWell(byte[] bytes)
    {
        var watch = Stopwatch.StartNew();
        try
        {
            LosslessJpegDecoderTests.Decode(bytes);
        }
        catch (Exception exception) when (exception is MalformedFileException or UnsupportedFileException)
        {
            // A named error is as good as an image.
        }

        return watch.Elapsed.TotalSeconds < MostSeconds;
    }
}
