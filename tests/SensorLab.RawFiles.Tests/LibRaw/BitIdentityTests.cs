using SensorLab.Frames;
using SensorLab.RawFiles.Dng;
using SensorLab.RawFiles.LibRaw;
using SensorLab.RawFiles.Tests.Support;
using SensorLab.Simulation.Writing;

namespace SensorLab.RawFiles.Tests.LibRaw;

/// <summary>Our own DNG reader against LibRaw on the same file: to the last bit over LibRaw's area.</summary>
public sealed class BitIdentityTests
{
    private const int Width = 160;
    private const int Height = 112;

    private static readonly PixelRectangle Active = new(16, 8, 144, 104);

    private static readonly Dictionary<string, DngOptions> Forms = new()
    {
        ["16 bits"] = new(),
        ["16 bits, big-endian"] = new() { IsBigEndian = true },
        ["strips"] = new() { RowsPerStrip = 17 },
        ["behind a preview"] = new() { IsBehindPreview = true },
        ["packed, strips"] = new() { BitsPerSample = 14, RowsPerStrip = 17 },
        ["packed, big-endian"] = new() { BitsPerSample = 14, IsBigEndian = true },
        ["lossless, one strip"] = Lossless(new()),
        ["lossless, big-endian"] = Lossless(new()) with { IsBigEndian = true },
        ["lossless, tiles"] = Lossless(new()) with { Tile = (64, 48) },
        ["lossless, tiles, predictor 6"] = Lossless(new() { Predictor = 6 }) with { Tile = (64, 48) },
        ["lossless, four components"] = Lossless(new() { Components = 4 }),
        ["lossless, one component"] = Lossless(new() { Components = 1 }),
        ["lossless, one table"] = Lossless(new() { HasOneTable = true }),
        ["lossless, restarts"] = Lossless(new() { RestartRows = 5 }),
        ["linearisation table"] = new() { BitsPerSample = 16, LinearisationTable = [.. Enumerable.Range(0, 4096).Select(code => (ushort)(code * code / 1024))] },
    };

    public static TheoryData<string> FormNames() => [.. Forms.Keys];

    public static TheoryData<int> Predictors() => [.. Enumerable.Range(1, 7)];

    [Theory]
    [MemberData(nameof(FormNames))]
    public void ReadRows_EveryFormOfOurWriter_IsLibRawsToTheLastBit(string form) => AssertAlike(Encode(Forms[form], 14, "RGGB"));

    [Theory]
    [MemberData(nameof(Predictors))]
    public void ReadRows_EveryPredictor_IsLibRawsToTheLastBit(int predictor)
    {
        AssertAlike(Encode(Lossless(new LosslessJpegForm { Predictor = predictor, Components = 2 }), 14, "RGGB"));
        AssertAlike(Encode(Lossless(new LosslessJpegForm { Predictor = predictor, Components = 1 }) with { IsBigEndian = true, Tile = (32, 32) }, 12, "BGGR"));
    }

    [Theory]
    [InlineData(8)]
    [InlineData(10)]
    [InlineData(12)]
    [InlineData(14)]
    [InlineData(16)]
    public void ReadRows_EveryDepth_IsLibRawsToTheLastBit(int bits)
    {
        AssertAlike(Encode(new DngOptions { BitsPerSample = bits }, bits, "RGGB"));
        AssertAlike(Encode(new DngOptions { BitsPerSample = bits, IsBigEndian = true, RowsPerStrip = 31 }, bits, "RGGB"));
        AssertAlike(Encode(Lossless(new()), bits, "RGGB"));
        AssertAlike(Encode(Lossless(new()) with { IsBigEndian = true, Tile = (48, 32) }, bits, "RGGB"));
    }

    [Theory]
    [InlineData("RGGB")]
    [InlineData("BGGR")]
    [InlineData("GRBG")]
    [InlineData("GBRG")]
    [InlineData("monochrome")]
    [InlineData("6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG")]
    [InlineData("6x6:RGGBGGGBRGRBGRBGBRBGGRGGGRBGBRGBRGRB")]
    public void ReadRows_EveryMosaic_IsLibRawsToTheLastBit(string filters)
    {
        AssertAlike(Encode(new DngOptions(), 14, filters));

        // LibRaw 0.20 takes two components of a monochrome image for two planes.
        int components = filters == "monochrome" ? 1 : 2;
        AssertAlike(Encode(Lossless(new() { Components = components }) with { Tile = (64, 48) }, 14, filters));
    }

    /// <summary>LibRaw holds two columns of such a pattern: our reader is held to what was written, and LibRaw's answer is not believed.</summary>
    [Theory]
    [InlineData("4x4:RRGGRRGGGGBBGGBB")]
    [InlineData("8x8:RGRGRGRGGBGBGBGBRGRGRGRGGBGBGBGBRGRGRGRGGBGBGBGBRGRGRGRGGBGBGBBG")]
    public void ReadRows_PatternsThatLibRawDoesNotHold_AreAsWritten(string filters)
    {
        byte[] file = Encode(Lossless(new()) with { Tile = (64, 48) }, 14, filters);
        ushort[] written = TestDng.Random(Width, Height, 14, seed: 14).Samples;
        LibRawCalls.WithFile(file, "a.dng", path =>
        {
            using DngMosaicReader ours = DngMosaicReader.Open(path);
            Assert.Equal(filters, ours.Frame.Layout.ColourFilterArray.Name);
            Assert.Equal(12.0, Assert.Single(ours.Frame.Declared.BlackDn.Values.Distinct()));
            Assert.Equal(written, Mosaics.ReadAll(ours));
            return 0;
        });
        _ = LibRawCalls.RequireLibrary();
        Assert.True(LibRawCalls.WithFile(file, "a.dng", path => Assert.Throws<UnsupportedFileException>(() => LibRawMosaicReader.Open(path))).IsUnsuitable);
    }

    /// <summary>What LibRaw 0.20 accepts but decodes in part: there our reader is held to what was written.</summary>
    [Fact]
    public void ReadRows_LosslessStrips_AreLibRawsInTheFirstStripAndWholeBeyond()
    {
        const int Strip = 17;
        _ = LibRawCalls.RequireLibrary();
        ushort[] written = TestDng.Random(Width, Height, 14, seed: 14).Samples;
        LibRawCalls.WithFile(Encode(Lossless(new()) with { RowsPerStrip = Strip }, 14, "RGGB"), "a.dng", path =>
        {
            using IMosaicReader theirs = LibRawMosaicReader.Open(path);
            using DngMosaicReader ours = DngMosaicReader.Open(path);

            Assert.Equal(written, Mosaics.ReadAll(ours));
            Assert.Equal(written[..(Strip * Width)], Mosaics.ReadAll(theirs)[..(Strip * Width)]);
            return 0;
        });
    }

    [Theory]
    [InlineData("real-data", "flats-ccd")]
    [InlineData("real-data", "raw", "dng")]
    [InlineData("foreign-sets")]
    public void ReadRows_SharedFiles_AreLibRawsToTheLastBit(params string[] folder)
    {
        _ = LibRawCalls.RequireLibrary();
        string root = SharedData.Require(folder);
        int compared = 0;
        foreach (string name in SharedData.List("*.dng", folder))
        {
            string path = Path.Combine(root, name);
            Exception? refusal = Record.Exception(() => DngMosaicReader.Open(path).Dispose());
            if (refusal is null)
            {
                AssertAlike(path);
                compared++;
            }
            else
            {
                Assert.True(Assert.IsType<UnsupportedFileException>(refusal).IsUnsuitable, name);
            }
        }

        Assert.True(compared > 0);
    }

    private static DngOptions Lossless(LosslessJpegForm form) => new() { Compression = DngCompression.Lossless, LosslessJpeg = form };

    private static byte[] Encode(DngOptions options, int bits, string filters)
    {
        ColourFilterArray array = ColourFilterArray.FromName(filters)!.Value;
        ushort[] codes = TestDng.Random(Width, Height, bits, seed: bits).Samples;
        if (options.LinearisationTable is { } table)
        {
            codes = [.. codes.Select(code => table[code % table.Length])];
        }

        var frame = new RawFrame
        {
            Metadata = new FrameMetadata { Iso = 200, ExposureSeconds = 0.01, Maker = "Larkmoor", Model = "LM-2", Mode = new RecordingMode(bits) },
            Declared = new DeclaredLevels { BlackDn = array.Channels.ToDictionary(channel => channel, _ => 12.0), WhiteDn = (1 << bits) - 1 },
            Layout = new MosaicLayout
            {
                WidthPixels = Width,
                HeightPixels = Height,
                ActiveArea = Active,
                ColourFilterArray = array,
                BitDepth = bits,
            },
        };
        return DngWriter.Encode(frame, codes, options);
    }

    private static void AssertAlike(byte[] file)
    {
        _ = LibRawCalls.RequireLibrary();
        LibRawCalls.WithFile(file, "a.dng", path =>
        {
            AssertAlike(path);
            return 0;
        });
    }

    private static void AssertAlike(string path)
    {
        using IMosaicReader theirs = LibRawMosaicReader.Open(path);
        using DngMosaicReader ours = DngMosaicReader.Open(path);
        ushort[] expected = Mosaics.ReadAll(theirs);
        ushort[] actual = Mosaics.ReadAll(ours);
        MosaicLayout area = theirs.Frame.Layout;
        MosaicLayout whole = ours.Frame.Layout;

        // LibRaw cuts what is stored down to its own idea of a frame, never beyond it; both count from the stored top left.
        Assert.True(area.WidthPixels <= whole.WidthPixels && area.HeightPixels <= whole.HeightPixels, path);
        Assert.Equal(whole.ActiveArea, area.ActiveArea);
        Assert.Equal(whole.ColourFilterArray, area.ColourFilterArray);
        for (int row = 0; row < area.HeightPixels; row++)
        {
            ReadOnlySpan<ushort> theirRow = expected.AsSpan(row * area.WidthPixels, area.WidthPixels);
            ReadOnlySpan<ushort> ourRow = actual.AsSpan(row * whole.WidthPixels, area.WidthPixels);
            int same = theirRow.CommonPrefixLength(ourRow);
            Assert.True(same == area.WidthPixels, $"{path}: row {row}, column {same}");
        }
    }
}
