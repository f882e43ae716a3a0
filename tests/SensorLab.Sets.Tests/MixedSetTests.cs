using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Sets.Tests;

/// <summary>Frames that do not belong together.</summary>
public sealed class MixedSetTests
{
    public static TheoryData<string, Func<FrameMetadata, FrameMetadata>> OtherSets => new()
    {
        { FindingCode.BodyMixed, m => m with { SerialNumber = "20418" } },
        { FindingCode.BodyMixed, m => m with { Model = "LM-3" } },
        { FindingCode.BodyMixed, m => m with { Maker = "Fellside" } },
        { FindingCode.FirmwareMixed, m => m with { Firmware = "1.2" } },
        { FindingCode.ModeMixed, m => m with { Mode = m.Mode with { Shutter = "electronic" } } },
        { FindingCode.ModeMixed, m => m with { Mode = m.Mode with { Compression = "lossless" } } },
        { FindingCode.ModeMixed, m => m with { Mode = m.Mode with { Name = "quiet" } } },
    };

    [Theory]
    [MemberData(nameof(OtherSets))]
    public void Build_OneFrameOfAnother_RefusesTheSetAndNamesTheFrame(string code, Func<FrameMetadata, FrameMetadata> change)
    {
        List<SetFrame> frames = MadeUpSet.Clean(100, 400);
        frames = frames.Change(f => f.File == frames[9].File, change);

        FrameSet set = FrameSetBuilder.Build(frames, GreyMethod.Metered);

        Finding finding = Assert.Single(set.Findings);
        Assert.Equal((code, FindingSeverity.Refusal), (finding.Code, finding.Severity));
        Assert.Null(finding.Iso);
        Assert.Equal([frames[9].File], finding.Frames);
        Assert.True(set.IsRefused);
    }

    [Theory]
    [InlineData("drive", "single", "continuous")]
    [InlineData("noise reduction", "off", "on")]
    [InlineData("crop", "full", "1.5")]
    public void Build_PartsOfTheMode_AreCompared(string part, string most, string odd)
    {
        List<SetFrame> frames = MadeUpSet.Clean().Change(_ => true, m => Put(m, most));
        frames = frames.Change(f => f.File == frames[4].File, m => Put(m, odd));

        Finding finding = Assert.Single(FrameSetBuilder.Build(frames, GreyMethod.Metered).Findings);

        Assert.Equal(FindingCode.ModeMixed, finding.Code);
        Assert.Contains($"{part} {most} and {odd}", finding.Message, StringComparison.Ordinal);

        FrameMetadata Put(FrameMetadata m, string value) => m with
        {
            Mode = part switch
            {
                "drive" => m.Mode with { Drive = value },
                "crop" => m.Mode with { Crop = value },
                _ => m.Mode with { NoiseReduction = value },
            },
        };
    }

    [Fact]
    public void Build_FramesThatDoNotSay_AgreeWithAny()
    {
        List<SetFrame> frames = MadeUpSet.Clean();
        frames = frames.Change(f => f.File == frames[4].File, m => m with
        {
            Maker = null,
            Model = " ",
            SerialNumber = null,
            Firmware = null,
            ApertureFNumber = null,
            Mode = new RecordingMode(),
        });

        Assert.Empty(FrameSetBuilder.Build(frames, GreyMethod.Metered).Findings);
    }

    [Fact]
    public void Build_LettersCaseAndOuterBlanks_AreNoDifference()
    {
        List<SetFrame> frames = MadeUpSet.Clean();

        Assert.Empty(FrameSetBuilder.Build(frames.Change(f => f.File == frames[4].File, m => m with { Maker = "LARKMOOR " }), GreyMethod.Metered).Findings);
    }

    [Fact]
    public void Build_ConverterBesideFirmware_IsANoteAndNoMixture()
    {
        List<SetFrame> frames = MadeUpSet.Clean();
        frames = frames.Change(f => f.File == frames[4].File, m => m with { Firmware = "Converter 3", FirmwareIsConverter = true });

        Finding finding = Assert.Single(FrameSetBuilder.Build(frames, GreyMethod.Metered).Findings);

        Assert.Equal((FindingCode.FirmwareUnknown, FindingSeverity.Note), (finding.Code, finding.Severity));
    }

    [Fact]
    public void Build_OtherBodyOfOtherSize_IsStillAnotherBody()
    {
        SetFrame other = MadeUpSet.Frame(FrameRole.Bracket, 100, 0.01, "bracket/other.dng").With(m => m with { SerialNumber = "1" });
        other = other with { Raw = other.Raw with { Layout = MadeUpSet.Layout(160, 120) } };

        FrameSet set = FrameSetBuilder.Build([.. MadeUpSet.Clean(), other], GreyMethod.Metered);

        Assert.Equal([FindingCode.BodyMixed, FindingCode.FrameSizeDiffers], set.Findings.Select(f => f.Code));
        Assert.True(set.IsRefused);
    }

    [Fact]
    public void Build_ApertureChangedInABracket_RefusesThatIsoAlone()
    {
        List<SetFrame> frames = MadeUpSet.Clean(100, 400);
        SetFrame odd = frames.Last(f => f.Role == FrameRole.Bracket && f.Raw.Metadata.Iso == 400);
        frames = frames.Change(f => f == odd, m => m with { ApertureFNumber = 6.3 });

        FrameSet set = FrameSetBuilder.Build(frames, GreyMethod.Metered);

        Finding finding = Assert.Single(set.Findings);
        Assert.Equal((FindingCode.LensSettingMixed, FindingSeverity.Refusal, 400), (finding.Code, finding.Severity, finding.Iso));
        Assert.Equal([odd.File], finding.Frames);
        Assert.Contains("f/5.6 (13 frames), f/6.3 (1 frame)", finding.Message, StringComparison.Ordinal);
        Assert.All(set.Levels, l => Assert.Equal(100, l.Key.Iso));
    }

    [Fact]
    public void Build_MeteredAtAnotherAperture_RefusesThatIso()
    {
        List<SetFrame> frames = MadeUpSet.Clean().Change(f => f.Role == FrameRole.Metered, m => m with { ApertureFNumber = 8 });

        Assert.Equal(FindingCode.LensSettingMixed, Assert.Single(FrameSetBuilder.Build(frames, GreyMethod.Metered).Findings).Code);
    }

    [Fact]
    public void Build_LensWithoutContactsAmongOthers_IsAnotherLensSetting()
    {
        List<SetFrame> frames = MadeUpSet.Clean().Change(f => f.Role == FrameRole.Metered, m => m with { ApertureFNumber = 0 });

        Finding finding = Assert.Single(FrameSetBuilder.Build(frames, GreyMethod.Metered).Findings);

        Assert.Equal(FindingCode.LensSettingMixed, finding.Code);
        Assert.Contains("a lens without contacts (2 frames)", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_AperturesOfTwoIsos_MayDiffer()
    {
        List<SetFrame> frames = MadeUpSet.Clean(100, 400).Change(f => f.Raw.Metadata.Iso == 400, m => m with { ApertureFNumber = 8 });

        Assert.Empty(FrameSetBuilder.Build(frames, GreyMethod.Metered).Findings);
    }

    [Fact]
    public void Build_DepthsMixedInAnIso_RefusesThatIsoAndNamesBothGroups()
    {
        List<SetFrame> frames = MadeUpSet.Clean(100, 400);
        SetFrame[] odd = [.. frames.Where(f => f.Raw.Metadata.Iso == 400).TakeLast(4)];
        frames = frames.Change(odd.Contains, m => m with { Mode = m.Mode with { BitDepth = 12 } });

        FrameSet set = FrameSetBuilder.Build(frames, GreyMethod.Metered);

        Finding finding = Assert.Single(set.Findings);
        Assert.Equal((FindingCode.DepthMixed, FindingSeverity.Refusal, 400), (finding.Code, finding.Severity, finding.Iso));
        Assert.Contains("12 of 14 bits and 4 of 12 bits", finding.Message, StringComparison.Ordinal);
        Assert.Equal(4, finding.Frames.Count);
        Assert.False(set.IsRefused);
    }

    [Fact]
    public void Build_DepthOfOneIsoAnother_IsAnotherMode()
    {
        List<SetFrame> frames = MadeUpSet.Clean(100, 400).Change(f => f.Raw.Metadata.Iso == 400, m => m with { Mode = m.Mode with { BitDepth = 12 } });

        FrameSet set = FrameSetBuilder.Build(frames, GreyMethod.Metered);

        Assert.Equal(FindingCode.ModeMixed, Assert.Single(set.Findings).Code);
        Assert.True(set.IsRefused);
    }

    [Fact]
    public void Build_ContainersOfOtherDepth_AreNoOtherMode()
    {
        List<SetFrame> frames = MadeUpSet.Clean().Change(_ => true, m => m with { Mode = m.Mode with { BitDepth = null } });
        SetFrame odd = frames[4] with { Raw = frames[4].Raw with { Layout = frames[4].Raw.Layout with { BitDepth = 16 } } };

        Assert.Empty(FrameSetBuilder.Build([.. frames.Except([frames[4]]), odd], GreyMethod.Metered).Findings);
    }
}
