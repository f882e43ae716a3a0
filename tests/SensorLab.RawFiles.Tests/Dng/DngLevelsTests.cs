using SensorLab.Frames;
using SensorLab.RawFiles.Tests.Support;

namespace SensorLab.RawFiles.Tests.Dng;

public sealed class DngLevelsTests
{
    [Fact]
    public void Declared_NoLevels_IsEmpty()
    {
        DeclaredLevels declared = LevelsOf(_ => { });

        Assert.Empty(declared.BlackDn);
        Assert.Null(declared.WhiteDn);
    }

    [Fact]
    public void Declared_OneBlack_IsEveryChannels()
    {
        DeclaredLevels declared = LevelsOf(raw => raw.Rationals(50714, (2049, 4)).Longs(50717, 15000));

        Assert.All(declared.BlackDn.Values, black => Assert.Equal(512.25, black));
        Assert.Equal(4, declared.BlackDn.Count);
        Assert.Equal(15000, declared.WhiteDn);
    }

    [Fact]
    public void Declared_BlackPerPlaceOfTheFilters_IsEachChannels()
    {
        DeclaredLevels declared = LevelsOf(raw => raw.Shorts(50713, 2, 2).Longs(50714, 100, 101, 102, 103));

        AssertBlack(declared, r: 100, g1: 101, g2: 102, b: 103);
    }

    [Fact]
    public void Declared_PatternOfOtherSize_IsAveragedOverTheChannelsPlaces()
    {
        // One row of four columns: red and G2 stand on columns 0 and 2, G1 and blue on 1 and 3.
        DeclaredLevels declared = LevelsOf(raw => raw.Shorts(50713, 1, 4).Longs(50714, 100, 200, 110, 220));

        AssertBlack(declared, r: 105, g1: 210, g2: 105, b: 210);
    }

    [Fact]
    public void Declared_OddPattern_IsPassedThroughWhole()
    {
        DeclaredLevels declared = LevelsOf(raw => raw.Shorts(50713, 1, 3).Longs(50714, 100, 103, 106));

        AssertBlack(declared, r: 103, g1: 103, g2: 103, b: 103);
    }

    [Fact]
    public void Declared_RowAndColumnDeltas_AddTheMeanOfTheChannelsOwn()
    {
        // The active area is 8 × 6: column deltas 0, 1, 0, 1 …; row deltas 10, 20, 10, 20 ….
        DeclaredLevels declared = LevelsOf(raw => raw
            .Longs(50829, 2, 4, 8, 12)
            .Shorts(50714, 64)
            .SignedRationals(50715, [.. Enumerable.Range(0, 8).Select(i => (i % 2L, 1L))])
            .SignedRationals(50716, [.. Enumerable.Range(0, 6).Select(i => (i % 2 == 0 ? 10L : 20L, 1L))]));

        AssertBlack(declared, r: 74, g1: 75, g2: 84, b: 85);
    }

    [Fact]
    public void Declared_DeltasOfAnotherNumberThanRows_AreDamage() =>
        Assert.Throws<MalformedFileException>(() => LevelsOf(raw => raw.SignedRationals(50716, (1, 1), (2, 1))));

    [Fact]
    public void Declared_BlackOverZero_IsDamage() =>
        Assert.Throws<MalformedFileException>(() => LevelsOf(raw => raw.Rationals(50714, (1, 0))));

    [Fact]
    public void ReadRows_LinearisationTable_IsAppliedAndKeepsItsLastValue()
    {
        ushort[] table = [5, 10, 20, 40, 80, 160, 320, 640, 1280, 4000];
        TestDng dng = TestDng.Random(16, 8, 8) with { Raw = raw => raw.Shorts(50712, [.. table.Select(v => (int)v)]) };

        Assert.Equal(dng.Samples.Select(code => table[Math.Min(code, (ushort)9)]), Mosaics.ReadAll(dng));
        Assert.Equal(12, Mosaics.FrameOf(dng).Layout.BitDepth);
        Assert.Equal(8, Mosaics.FrameOf(dng).Metadata.Mode.BitDepth);
    }

    [Theory]
    [InlineData("straight", false)]
    [InlineData("rounded", false)]
    [InlineData("clipped", false)]
    [InlineData("square", true)]
    [InlineData("kneed", true)]
    public void IsCompanded_Table_SaysWhetherStepsGrow(string shape, bool expected)
    {
        int[] table = [.. Enumerable.Range(0, 256).Select(code => shape switch
        {
            "straight" => 4 * code,
            "rounded" => (int)Math.Round(1.37 * code),
            "clipped" => Math.Clamp(4 * (code - 10), 0, 800),
            "square" => code * code / 16,
            _ => code < 128 ? code : 128 + (2 * (code - 128)),
        })];

        Assert.Equal(expected, Mosaics.FrameOf(TestDng.Random(8, 8, 8) with { Raw = raw => raw.Shorts(50712, table) }).IsCompanded);
    }

    private static DeclaredLevels LevelsOf(Action<TestDirectory> raw) =>
        Mosaics.FrameOf(TestDng.Random(20, 12, 16) with { Raw = raw }).Declared;

    private static void AssertBlack(DeclaredLevels declared, double r, double g1, double g2, double b)
    {
        Assert.Equal(r, declared.BlackDn[SensorChannel.R], 1e-12);
        Assert.Equal(g1, declared.BlackDn[SensorChannel.G1], 1e-12);
        Assert.Equal(g2, declared.BlackDn[SensorChannel.G2], 1e-12);
        Assert.Equal(b, declared.BlackDn[SensorChannel.B], 1e-12);
    }
}
