using SensorLab.Measurement.Findings;
using SensorLab.Measurement.Findings.Target;
using SensorLab.Pixels.Tests;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Findings;

/// <summary>Clean sets, and flaws that look like others, are not accused of what they do not have.</summary>
public sealed class NoFalseAlarmTests
{
    public static TheoryData<string> Bodies => ["colour", "monochrome", "noisy", "six by six", "quad"];

    [Theory]
    [MemberData(nameof(Bodies))]
    public void CleanSet_OfAnyBody_CarriesNoWarning(string name)
    {
        VirtualBody body = name switch
        {
            "colour" => RehearsedSet.SmallBody,
            "six by six" => RehearsedSet.SmallBody with { ColourFilterArray = Patterns.SixBySixName, PlaceSensitivity = [.. Enumerable.Range(0, 36).Select(i => 1 + (0.01 * (i % 7 - 3)))], RowNoiseElectron = 0.5 },
            "quad" => RehearsedSet.SmallBody with { ColourFilterArray = Patterns.QuadName, PlaceSensitivity = [.. Enumerable.Range(0, 16).Select(i => 1 + (0.01 * (i % 5 - 2)))], MaskedLeftPixels = 10, MaskedTopPixels = 6 },
            "monochrome" => RehearsedSet.SmallBody with { ColourFilterArray = "monochrome", BlackLevelDn = 64.5 },
            _ => RehearsedSet.SmallBody with { PrnuPercent = 1.5, DsnuElectron = 2, RowNoiseElectron = 0.5, ColumnNoiseElectron = 0.3, DsnuColumnElectron = 0.3 },
        };

        Finding[] warnings = [.. Enumerable.Range(1, 2)
            .SelectMany(seed => RehearsedSet.Examine([], body, (ulong)seed, 100, 800))
            .Where(f => f.Severity != FindingSeverity.Note)];

        Assert.True(warnings.Length == 0, string.Join(", ", warnings.Select(w => $"{w.Code} {w.Size}")));
    }

    /// <summary>Few rows that vary on their own make wide bands in one of 36 planes by chance, and a row of cells brighter than others: neither is light.</summary>
    [Theory]
    [InlineData(2024)]
    [InlineData(2043)]
    [InlineData(2003, "gain-switch=0.8")]
    public void FewNoisyRows_AreNoBandsOfLightAndNoGlow(ulong seed, params string[] flaws) => Assert.DoesNotContain(
        RehearsedSet.Examine(flaws, RehearsedSet.BandedSixBySix(seed), seed, 100, 400, 1600),
        f => f.Code is FindingCode.LightBanded or FindingCode.FieldGlowing);

    [Fact]
    public void CleanSet_OfTheLm2_CarriesNoNoteEither() => Assert.Empty(RehearsedSet.Examine([]));

    // What looks like the second flaw and is the first.
    [Theory]
    [InlineData("light-drift=0.3", "response-nonlinear")]
    [InlineData("light-drift=0.3", "exposure-inexact")]
    [InlineData("response-nonlinear=0.05", "light-drift")]
    [InlineData("response-nonlinear=0.05", "exposure-inexact")]
    [InlineData("exposure-inexact=0.06", "response-nonlinear")]
    [InlineData("exposure-inexact=0.06", "light-flicker")]
    [InlineData("light-flicker=0.03", "exposure-inexact")]
    [InlineData("light-flicker=0.03", "metered-doubtful")]
    [InlineData("black-drift=10", "light-drift")]
    [InlineData("black-drift=10", "light-flicker")]
    [InlineData("black-drift=10", "dark-lit")]
    [InlineData("dark-current=10", "dark-lit")]
    [InlineData("dark-current=10", "black-drift")]
    [InlineData("dark-lit=5", "dark-current")]
    [InlineData("noise-banded=20", "raw-filtered")]
    [InlineData("noise-banded=20", "light-banded")]
    [InlineData("noise-banded=20", "model-rejected")]
    [InlineData("raw-filtered=0.3", "target-textured")]
    [InlineData("target-textured=0.02", "raw-filtered")]
    [InlineData("target-uneven=0.3", "target-textured")]
    [InlineData("target-uneven=0.3", "pixels-hot")]
    [InlineData("target-uneven=0.3", "response-nonlinear")]
    [InlineData("target-uneven=0.8", "response-nonlinear")]
    [InlineData("light-flicker=0.03", "response-nonlinear")]
    [InlineData("pixels-hot=400", "raw-filtered")]
    [InlineData("pixels-hot=400", "lines-dead")]
    [InlineData("noise-banded=4", "lines-dead")]
    [InlineData("dark-lit=15", "field-glowing")]
    [InlineData("field-glowing=90", "dark-lit")]
    [InlineData("lines-dead=3", "raw-filtered")]
    [InlineData("lines-dead=3", "noise-banded")]
    [InlineData("pixels-hot=400", "noise-banded")]
    [InlineData("raw-companded=8", "gain-digital")]
    [InlineData("raw-companded=8", "depth-mixed")]
    [InlineData("channel-scaled=0.12", "gain-digital")]
    [InlineData("gain-digital=2", "channel-scaled")]
    public void Flaw_OfOneKind_IsNotTakenForAnother(string flaw, string other) =>
        Assert.DoesNotContain(RehearsedSet.Examine([flaw]), f => f.Code == other);

    [Theory]
    [InlineData("gain-shared", "iso-disagrees")]
    [InlineData("gain-switch=0.5", "iso-disagrees")]
    [InlineData("gain-digital=2", "iso-disagrees")]
    [InlineData("iso-disagrees=0.12", "gain-shared")]
    public void FlawAcrossIsos_OfOneKind_IsNotTakenForAnother(string flaw, string other) =>
        Assert.DoesNotContain(RehearsedSet.Examine([flaw], null, 1, 100, 400, 1600), f => f.Code == other);

    // Too small to move a figure, even all at once: nothing is owed.
    [Fact]
    public void Flaws_TooSmallToMatter_AreNotReported() => Assert.Empty(RehearsedSet.Examine(
    [
        "light-flicker=0.0005", "light-drift=0.005", "exposure-inexact=0.001", "response-nonlinear=0.001", "target-textured=0.0002",
        "black-drift=0.02", "dark-lit=0.01", "metered-doubtful=0.002", "levels-declared=0.2",
    ]));

    /// <summary>Of 400 million values some 230 lie beyond five standard deviations by chance: twenty then tell nothing, and a thousand do.</summary>
    [Theory]
    [InlineData(20, false)]
    [InlineData(1000, true)]
    public void HotPixels_OfAFrameOfAHundredMegapixels_AreThoseBeyondChance(int pixels, bool isFound)
    {
        IsoEvidence small = RehearsedSet.Evidence([$"pixels-hot={pixels}"])[0];
        LevelRecord[] large = [.. small.Profile.Levels.Select(l => l with { PixelsPerChannel = 100_000_000, Channels = [.. l.Channels.Select(c => c with { Pixels = null })] })];
        IsoEvidence evidence = IsoEvidence.Of([.. small.Levels.Select(l => l.Statistics)], small.Fitted with { Profile = small.Profile with { Levels = large } }, small.Options)!;

        Assert.Equal(isFound, new PixelsHotCheck().Examine(evidence).Any());
        Assert.Contains(IsoChecks.Examine([small]), f => f.Code == FindingCode.PixelsHot);
    }

    [Fact]
    public void Evidence_WithOtherLevelsThanItsProfile_IsRefused()
    {
        IsoEvidence evidence = RehearsedSet.Evidence([])[0];

        ArgumentException e = Assert.Throws<ArgumentException>(() => IsoEvidence.Of([], evidence.Fitted, evidence.Options));

        Assert.Equal("fitted", e.ParamName);
    }
}
