using SensorLab.Frames;
using SensorLab.RawFiles.Tests.Support;
using SensorLab.Simulation.Writing;

namespace SensorLab.Fuzzing.Targets;

/// <summary>Small good files by our own writers, one of every kind, and damaged ones: where a fuzzer begins.</summary>
internal static class SeedFiles
{
    private const int Width = 32;
    private const int Height = 24;
    private const int Seed = 3;

    private static readonly ColourFilterArray Bayer = ColourFilterArray.FromName("RGGB") ?? ColourFilterArray.Monochrome;

    /// <summary>Seeds of a target.</summary>
    /// <param name="target">"dng" or "jpeg".</param>
    /// <returns>Bytes by a name that says what they are.</returns>
    public static IEnumerable<(string Name, byte[] Bytes)> Of(string target) => target == "jpeg" ? Jpegs() : [.. Dngs(), .. Damaged()];

    private static IEnumerable<(string Name, byte[] Bytes)> Jpegs()
    {
        ushort[] samples = Smooth(12);
        for (int predictor = 1; predictor <= 7; predictor++)
        {
            yield return ($"predictor-{predictor}", new LosslessJpegEncoder { Precision = 12, Predictor = predictor, Components = 2 }.Encode(samples, Width, Height));
        }

        foreach (int components in (int[])[1, 4])
        {
            yield return ($"components-{components}", new LosslessJpegEncoder { Precision = 12, Components = components }.Encode(samples, Width, Height));
        }

        // A line of three components must be a multiple of three.
        yield return ("components-3", new LosslessJpegEncoder { Precision = 12, Components = 3 }.Encode(samples[..(30 * Height)], 30, Height));
        yield return ("restarts", new LosslessJpegEncoder { Precision = 12, Components = 2, LinesPerRestart = 2 }.Encode(samples, Width, Height));
        yield return ("point-transform", new LosslessJpegEncoder { Precision = 12, PointTransform = 2 }.Encode(samples, Width, Height));
        yield return ("deep-codes", new LosslessJpegEncoder { Precision = 16, CodeLengths = [LosslessJpegEncoder.DeepLengths(0)] }.Encode(Rough(16), Width, Height));
        yield return ("even-codes", new LosslessJpegEncoder { Precision = 16, CodeLengths = [LosslessJpegEncoder.EvenLengths()] }.Encode(Rough(16), Width, Height));
        byte[] two = new LosslessJpegEncoder
        {
            Precision = 16,
            Components = 2,
            CodeLengths = [LosslessJpegEncoder.EvenLengths(), LosslessJpegEncoder.DeepLengths(5)],
        }.Encode(Rough(16), Width, Height);
        yield return ("two-tables", two);
        yield return ("cut", two[..(two.Length / 2)]);
    }

    private static IEnumerable<(string Name, byte[] Bytes)> Dngs()
    {
        foreach (bool isBigEndian in (bool[])[false, true])
        {
            string order = isBigEndian ? "big" : "little";
            foreach (DngCompression compression in Enum.GetValues<DngCompression>())
            {
                var options = new DngOptions { Compression = compression, IsBigEndian = isBigEndian };
                yield return ($"{order}-{compression}-strips", Encode(options with { RowsPerStrip = 10 }));
                yield return ($"{order}-{compression}-tiles", Encode(options with { Tile = (16, 16), IsBehindPreview = true }));
            }

            foreach (int bits in (int[])[10, 12, 14])
            {
                yield return ($"{order}-packed-{bits}", Encode(new DngOptions { BitsPerSample = bits, IsBigEndian = isBigEndian }, bits));
            }
        }

        foreach (int predictor in (int[])[2, 6, 7])
        {
            yield return ($"lossless-predictor-{predictor}", Encode(Lossless(new LosslessJpegForm { Predictor = predictor })));
        }

        yield return ("lossless-restarts", Encode(Lossless(new LosslessJpegForm { RestartRows = 4 })));
        yield return ("lossless-four", Encode(Lossless(new LosslessJpegForm { Components = 4, HasOneTable = true })));
        ushort[] curve = [.. Enumerable.Range(0, 256).Select(code => (ushort)(code * code / 16))];
        yield return ("companded", Encode(new DngOptions { BitsPerSample = 8, LinearisationTable = curve }, 8));
        yield return ("noise-reduced", Encode(new DngOptions { NoiseReductionApplied = 0.5 }));
        foreach (int predictor in (int[])[2, 34892, 34893])
        {
            yield return ($"deflate-predictor-{predictor}", (TestDng.Random(Width, Height, 16) with { Compression = 8, Coder = Deflate, Raw = raw => raw.Shorts(317, predictor) }).ToBytes());
        }

        var folded = new LosslessJpegEncoder { Components = 2, Precision = 14, Predictor = 6 };
        yield return ("folded", (TestDng.Random(Width, Height, 14) with
        {
            Compression = 7,
            Tile = (16, 8),
            IsBehindPreview = true,
            Coder = (samples, width, height) => folded.Encode(samples, width * 2, height / 2),
        }).ToBytes());
        yield return ("levels", (TestDng.Random(Width, Height, 14) with
        {
            Filters = "GBRG",
            Raw = raw => raw.Shorts(50713, 2, 2).Longs(50714, 100, 101, 102, 103).SignedRationals(50715, [.. Enumerable.Repeat((-1L, 2L), 24)])
                .Longs(50717, 16000).Longs(50829, 4, 4, Height, 28).Longs(50830, 0, 0, 4, Width, 4, 0, Height, 4),
        }).ToBytes());
        yield return ("six-by-six", Encode(new DngOptions(), filters: "6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG"));
        yield return ("quad", Encode(new DngOptions(), filters: "4x4:RRGGRRGGGGBBGGBB"));
        yield return ("monochrome", (TestDng.Random(Width, Height, 16) with { Filters = "monochrome" }).ToBytes());
    }

    private static IEnumerable<(string Name, byte[] Bytes)> Damaged()
    {
        byte[] good = (TestDng.Random(Width, Height, 12) with { IsBehindPreview = true, Tile = (16, 16) }).ToBytes();
        yield return ("damaged-cut", good[..(good.Length * 2 / 3)]);
        yield return ("damaged-own-child", (TestDng.Random(8, 8, 12) with { First = first => first.Longs(330, 8) }).ToBytes());
        yield return ("damaged-counts", (TestDng.Random(8, 8, 12) with { Raw = raw => raw.Raw(50712, 3, uint.MaxValue, 8) }).ToBytes());
    }

    private static DngOptions Lossless(LosslessJpegForm form) => new() { Compression = DngCompression.Lossless, LosslessJpeg = form };

    private static byte[] Encode(DngOptions options, int bits = 14, string? filters = null)
    {
        var frame = new RawFrame
        {
            Metadata = new FrameMetadata { Iso = 200, ExposureSeconds = 0.01, Maker = "Larkmoor", Model = "LM-2", Firmware = "1.1", Mode = new RecordingMode(bits) },
            Layout = new MosaicLayout
            {
                WidthPixels = Width,
                HeightPixels = Height,
                ActiveArea = new PixelRectangle(0, 0, Width, Height),
                ColourFilterArray = filters is null ? Bayer : ColourFilterArray.FromName(filters) ?? Bayer,
                BitDepth = bits,
            },
        };
        ushort[] codes = Smooth(bits);
        if (options.LinearisationTable is { } table)
        {
            codes = [.. codes.Select(code => table[code])];
        }

        return DngWriter.Encode(frame, codes, options);
    }

    private static byte[] Deflate(ushort[] samples, int width, int height)
    {
        var target = new MemoryStream();
        using (var stream = new System.IO.Compression.ZLibStream(target, System.IO.Compression.CompressionLevel.Optimal))
        {
            stream.Write(System.Runtime.InteropServices.MemoryMarshal.AsBytes(samples.AsSpan()));
        }

        return target.ToArray();
    }

    private static ushort[] Smooth(int bits)
    {
        var random = new Random(Seed);
        return [.. Enumerable.Range(0, Width * Height).Select(i => (ushort)((1 << (bits - 1)) + random.Next(8) + (i % Width)))];
    }

    private static ushort[] Rough(int bits)
    {
        var random = new Random(Seed);
        return [.. Enumerable.Range(0, Width * Height).Select(_ => (ushort)random.Next(1 << bits))];
    }
}
