using CsCheck;
using SensorLab.RawFiles.LosslessJpeg;
using SensorLab.RawFiles.Tests.Support;

namespace SensorLab.RawFiles.Tests.LosslessJpeg;

public sealed class LosslessJpegDecoderTests
{
    public static TheoryData<int, int, int> EveryKind()
    {
        var cases = new TheoryData<int, int, int>();
        for (int predictor = 1; predictor <= 7; predictor++)
        {
            for (int components = 1; components <= 4; components++)
            {
                foreach (int precision in new[] { 8, 10, 12, 14, 16 })
                {
                    cases.Add(predictor, components, precision);
                }
            }
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(EveryKind))]
    public void ReadLine_EveryKind_GivesWhatWasEncoded(int predictor, int components, int precision)
    {
        var encoder = new LosslessJpegEncoder { Predictor = predictor, Components = components, Precision = precision };
        ushort[] noise = Noise(40 * components * 30, precision, seed: predictor);

        AssertRoundTrip(encoder, noise, 40 * components, 30);
        AssertRoundTrip(encoder with { CodeLengths = [LosslessJpegEncoder.EvenLengths()] }, noise, 40 * components, 30);
        AssertRoundTrip(encoder with { CodeLengths = [LosslessJpegEncoder.DeepLengths(3), LosslessJpegEncoder.DeepLengths(12)] }, noise, 40 * components, 30);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    public void ReadLine_DifferenceOf32768_HasNoExtraBits(int predictor)
    {
        // Steps of exactly half the range need category 16.
        ushort[] samples = [.. Enumerable.Range(0, 20 * 10).Select(i => (ushort)(i % 2 == 0 ? 0 : 32768))];

        AssertRoundTrip(new LosslessJpegEncoder { Predictor = predictor }, samples, 20, 10);
        AssertRoundTrip(new LosslessJpegEncoder { Predictor = predictor, CodeLengths = [LosslessJpegEncoder.DeepLengths(1)] }, samples, 20, 10);
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(3, 2)]
    [InlineData(2, 4)]
    public void ReadLine_RestartMarkers_StartPredictionAnew(int linesPerRestart, int components)
    {
        // More than eight restarts, so that their numbers wrap.
        var encoder = new LosslessJpegEncoder { Predictor = 6, Components = components, Precision = 14, LinesPerRestart = linesPerRestart };

        AssertRoundTrip(encoder, Noise(12 * components * 35, 14, seed: 5), 12 * components, 35);
    }

    [Fact]
    public void ReadLine_PointTransform_LeavesOutLowBits()
    {
        var encoder = new LosslessJpegEncoder { Predictor = 4, Precision = 14, PointTransform = 3 };
        ushort[] samples = Noise(30 * 20, 14, seed: 8);

        Assert.Equal(samples.Select(sample => (ushort)(sample & ~7)), Decode(encoder.Encode(samples, 30, 20)));
    }

    [Fact]
    public void ReadLine_ImageLargerThanTheWindow_IsReadThroughIt()
    {
        // 1.4 MB of data pass a window of 64 KiB; bytes of ones alone, and their stuffing, lie on its edges too.
        var encoder = new LosslessJpegEncoder { Components = 2, CodeLengths = [LosslessJpegEncoder.EvenLengths()] };

        AssertRoundTrip(encoder, Noise(1000 * 600, 16, seed: 3), 1000, 600);
    }

    [Fact]
    public void ReadLine_AnyImage_GivesWhatWasEncoded()
    {
        Gen<(LosslessJpegEncoder Encoder, int Width, int Lines, int Spread, int Seed)> any =
            from predictor in Gen.Int[1, 7]
            from components in Gen.Int[1, 4]
            from precision in Gen.Int[2, 16]
            from linesPerRestart in Gen.Int[0, 6]
            from deepest in Gen.Int[-2, 16]
            from width in Gen.Int[1, 60]
            from lines in Gen.Int[1, 30]
            from spread in Gen.Int[1, 16]
            from seed in Gen.Int
            select (
                new LosslessJpegEncoder
                {
                    Predictor = predictor,
                    Components = components,
                    Precision = precision,
                    LinesPerRestart = linesPerRestart,
                    CodeLengths = deepest switch
                    {
                        -2 => null,
                        -1 => [LosslessJpegEncoder.EvenLengths()],
                        _ => [LosslessJpegEncoder.DeepLengths(deepest), LosslessJpegEncoder.EvenLengths()],
                    },
                },
                width,
                lines,
                Math.Min(spread, precision),
                seed);
        any.Sample(
            image =>
            {
                int lineLength = image.Width * image.Encoder.Components;
                ushort[] samples = Noise(lineLength * image.Lines, image.Spread, image.Seed);
                return samples.AsSpan().SequenceEqual(Decode(image.Encoder.Encode(samples, lineLength, image.Lines)));
            },
            iter: 1000);
    }

    internal static ushort[] Decode(byte[] image)
    {
        using var temporary = new TemporaryFile(image, ".jpg");
        using RandomAccessFile file = RandomAccessFile.Open(temporary.Path);
        using var decoder = new LosslessJpegDecoder(file);
        LosslessJpegHeader header = decoder.Start(0, image.Length);
        var samples = new ushort[header.LineLength * header.Lines];
        for (int line = 0; line < header.Lines; line++)
        {
            decoder.ReadLine().CopyTo(samples.AsSpan(line * header.LineLength));
        }

        return samples;
    }

    internal static ushort[] Noise(int count, int bits, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, count).Select(_ => (ushort)random.Next(1 << bits))];
    }

    private static void AssertRoundTrip(LosslessJpegEncoder encoder, ushort[] samples, int lineLength, int lines) =>
        Assert.Equal(samples, Decode(encoder.Encode(samples, lineLength, lines)));
}
