using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Sets.Tests;

/// <summary>One test for each finding that metadata give, and for what must not give it.</summary>
public sealed class SetFindingTests
{
    [Fact]
    public void FramesNone_EmptySet_RefusesIt()
    {
        FrameSet set = FrameSetBuilder.Build([], GreyMethod.Metered);

        Finding finding = Only(set, FindingCode.FramesNone, FindingSeverity.Refusal);
        Assert.Null(finding.Iso);
        Assert.True(set.IsRefused);
    }

    [Fact]
    public void FramesNone_AllLeftOut_IsToldBesideTheReason()
    {
        FrameSet set = FrameSetBuilder.Build([MadeUpSet.Frame(null, 100, 0.01)], GreyMethod.Metered);

        Assert.Equal([FindingCode.FramesNone, FindingCode.FrameUnassigned], set.Findings.Select(f => f.Code));
    }

    [Fact]
    public void FrameUnassigned_NoRole_IsLeftOut()
    {
        FrameSet set = FrameSetBuilder.Build([.. MadeUpSet.Clean(), MadeUpSet.Frame(null, 100, 0.01, "stray.dng")], GreyMethod.Metered);

        Finding finding = Only(set, FindingCode.FrameUnassigned, FindingSeverity.Warning);
        Assert.Equal(["stray.dng"], finding.Frames);
        Assert.Equal((1, "count"), (finding.Size, finding.SizeUnit));
        Assert.Equal("stray.dng", Assert.Single(set.LeftOut).File);
    }

    /// <summary>A few strays are moved by hand; a card that nobody has sorted is assigned.</summary>
    [Theory]
    [InlineData(2, "Move them into a folder")]
    [InlineData(3, "An unsorted card?")]
    public void FrameUnassigned_MoreThanHalfOfAll_IsAnUnsortedCard(int strays, string remedy)
    {
        SetFrame[] frames =
        [
            MadeUpSet.Frame(FrameRole.Dark, 100, 0.01), MadeUpSet.Frame(FrameRole.Dark, 100, 0.01),
            .. Enumerable.Range(0, strays).Select(i => MadeUpSet.Frame(null, 100, 0.01, $"stray{i}.dng")),
        ];

        Finding finding = FrameSetBuilder.Build(frames, GreyMethod.Metered).Findings.Single(f => f.Code == FindingCode.FrameUnassigned);

        Assert.StartsWith(remedy, finding.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void FrameUnassigned_LightWithoutName_IsLeftOut()
    {
        FrameSet set = FrameSetBuilder.Build([.. MadeUpSet.Clean(), MadeUpSet.Frame(FrameRole.Light, 100, 0.01, "light/x.dng")], GreyMethod.Metered);

        Only(set, FindingCode.FrameUnassigned, FindingSeverity.Warning);
        Assert.Single(set.LeftOut);
    }

    [Theory]
    [InlineData(null, 0.01, "the ISO")]
    [InlineData(0, 0.01, "the ISO")]
    [InlineData(100, null, "the exposure time")]
    [InlineData(100, 0.0, "the exposure time")]
    [InlineData(100, double.PositiveInfinity, "the exposure time")]
    public void FrameIncomplete_NoIsoOrExposure_IsLeftOut(int? iso, double? exposureSeconds, string lacking)
    {
        FrameSet set = FrameSetBuilder.Build([.. MadeUpSet.Clean(), MadeUpSet.Frame(FrameRole.Bracket, iso, exposureSeconds)], GreyMethod.Metered);

        Finding finding = Only(set, FindingCode.FrameIncomplete, FindingSeverity.Warning);
        Assert.Contains(lacking, finding.Message, StringComparison.Ordinal);
        Assert.Single(set.LeftOut);
        Assert.Equal(8, set.Levels.Count);
    }

    [Fact]
    public void MeteredMissing_OneIso_RefusesThatIso()
    {
        FrameSet set = Without(FrameRole.Metered, 400);

        Finding finding = Only(set, FindingCode.MeteredMissing, FindingSeverity.Refusal);
        Assert.Equal(400, finding.Iso);
        Assert.False(set.IsRefused);
    }

    [Fact]
    public void MeteredMissing_GreyBySaturation_IsNoFinding()
    {
        SetFrame[] frames = [.. MadeUpSet.Clean().Where(f => f.Role != FrameRole.Metered)];

        Assert.Empty(FrameSetBuilder.Build(frames, GreyMethod.Saturation).Findings);
    }

    [Fact]
    public void DarkMissing_OneIso_RefusesThatIso()
    {
        Finding finding = Only(Without(FrameRole.Dark, 400), FindingCode.DarkMissing, FindingSeverity.Refusal);

        Assert.Equal(400, finding.Iso);
    }

    [Theory]
    [InlineData(MeteringMode.Pattern, "pattern")]
    [InlineData(MeteringMode.CentreWeighted, "centre-weighted")]
    [InlineData(MeteringMode.Average, "average")]
    [InlineData(MeteringMode.MultiSpot, "multi-spot")]
    [InlineData(MeteringMode.Partial, "partial")]
    public void MeteredDoubtful_OtherMetering_NamesIt(MeteringMode mode, string name)
    {
        FrameSet set = FrameSetBuilder.Build(MadeUpSet.Clean().Change(f => f.Role == FrameRole.Metered, m => m with { Metering = mode }), GreyMethod.Metered);

        Finding finding = Only(set, FindingCode.MeteredDoubtful, FindingSeverity.Warning);
        Assert.Equal(100, finding.Iso);
        Assert.Equal(2, finding.Frames.Count);
        Assert.Contains(name, finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void MeteredDoubtful_Compensation_HasItsSize()
    {
        FrameSet set = FrameSetBuilder.Build(
            MadeUpSet.Clean().Change(f => f.Role == FrameRole.Metered, m => m with { ExposureCompensationEv = -2.0 / 3 }),
            GreyMethod.Metered);

        Finding finding = Only(set, FindingCode.MeteredDoubtful, FindingSeverity.Warning);
        Assert.Equal((2.0 / 3, "ev"), (finding.Size, finding.SizeUnit));
        Assert.Contains("-0.67 EV", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void MeteredDoubtful_NothingSaid_IsNoFinding()
    {
        List<SetFrame> frames = MadeUpSet.Clean().Change(_ => true, m => m with { Metering = MeteringMode.Unknown, ExposureCompensationEv = null });

        Assert.Empty(FrameSetBuilder.Build(frames, GreyMethod.Metered).Findings);
    }

    [Fact]
    public void MeteredDoubtful_OtherMeteringOfBracketOrGreyBySaturation_IsNoFinding()
    {
        List<SetFrame> bracket = MadeUpSet.Clean().Change(f => f.Role == FrameRole.Bracket, m => m with { Metering = MeteringMode.Pattern });
        List<SetFrame> metered = MadeUpSet.Clean().Change(f => f.Role == FrameRole.Metered, m => m with { Metering = MeteringMode.Pattern });

        Assert.Empty(FrameSetBuilder.Build(bracket, GreyMethod.Metered).Findings);
        Assert.Empty(FrameSetBuilder.Build(metered, GreyMethod.Saturation).Findings);
    }

    [Fact]
    public void PairMissing_BracketAndDarkOfOneFrame_AreNamed()
    {
        SetFrame[] frames =
        [
            .. MadeUpSet.Clean(),
            MadeUpSet.Frame(FrameRole.Bracket, 100, 1, "bracket/single.dng"),
            MadeUpSet.Frame(FrameRole.Dark, 100, 1, "dark/single.dng"),
            MadeUpSet.Frame(FrameRole.Metered, 100, 1.0 / 80, "metered/single.dng"),
        ];

        FrameSet set = FrameSetBuilder.Build(frames, GreyMethod.Metered);

        Finding finding = Only(set, FindingCode.PairMissing, FindingSeverity.Warning);
        Assert.Equal(["bracket/single.dng", "dark/single.dng"], finding.Frames);
        Assert.Equal(11, set.Levels.Count);
    }

    [Theory]
    [InlineData(5, null)]
    [InlineData(4, FindingSeverity.Warning)]
    [InlineData(1, FindingSeverity.Warning)]
    [InlineData(0, FindingSeverity.Refusal)]
    public void LevelsTooFew_CountOfPairedExposures_DecidesSeverity(int exposures, FindingSeverity? severity)
    {
        SetFrame[] frames =
        [
            .. MadeUpSet.Clean().Where(f => f.Role == FrameRole.Dark),
            MadeUpSet.Frame(FrameRole.Metered, 100, 1.0 / 60, "m"),
            .. Enumerable.Range(0, exposures).SelectMany(i => new[]
            {
                MadeUpSet.Frame(FrameRole.Bracket, 100, 0.01 * (i + 1), $"a{i}"),
                MadeUpSet.Frame(FrameRole.Bracket, 100, 0.01 * (i + 1), $"b{i}"),
            }),
        ];

        FrameSet set = FrameSetBuilder.Build(frames, GreyMethod.Metered);

        Assert.Equal(severity is null ? [] : [severity.Value], set.Findings.Where(f => f.Code == FindingCode.LevelsTooFew).Select(f => f.Severity));
        Assert.Equal(exposures == 0, set.IsRefused);
        Assert.All(set.Findings, f => Assert.Equal((exposures, "count"), (f.Size, f.SizeUnit)));
    }

    [Fact]
    public void LevelsTooFew_MeteredAtABracketExposure_IsNoFurtherExposure()
    {
        List<SetFrame> frames = [.. MadeUpSet.Clean().Where(f => f.Role != FrameRole.Bracket || f.Raw.Metadata.ExposureSeconds > 0.015)];

        Finding finding = Only(FrameSetBuilder.Build(frames, GreyMethod.Metered), FindingCode.LevelsTooFew, FindingSeverity.Warning);

        Assert.Equal(4, finding.Size);
    }

    // Two readings show one signal: with three levels of the bracket they make four.
    [Fact]
    public void LevelsTooFew_SeveralMeterReadings_AreOneExposure()
    {
        List<SetFrame> frames = [.. MadeUpSet.Clean().Where(f => f.Role == FrameRole.Dark)];
        frames.AddRange(new[] { "1", "2" }.SelectMany(step => new[] { "a", "b" }.Select(name =>
            MadeUpSet.Frame(FrameRole.Metered, 100, 1.0 / 50, $"metered/{name}{step}.dng") with { LightStep = step })));
        frames.AddRange(Enumerable.Range(1, 3).SelectMany(i => new[] { "a", "b" }.Select(name => MadeUpSet.Frame(FrameRole.Bracket, 100, 0.1 * i, $"bracket/{name}{i}.dng"))));

        Finding finding = FrameSetBuilder.Build(frames, GreyMethod.Metered).Findings.Single(f => f.Code == FindingCode.LevelsTooFew);

        Assert.Equal(4, finding.Size);
    }

    [Fact]
    public void FrameSizeDiffers_Minority_IsLeftOut()
    {
        SetFrame odd = MadeUpSet.Frame(FrameRole.Bracket, 100, 0.01, "bracket/odd.dng");
        odd = odd with { Raw = odd.Raw with { Layout = MadeUpSet.Layout(160, 120) } };

        FrameSet set = FrameSetBuilder.Build([.. MadeUpSet.Clean(), odd], GreyMethod.Metered);

        Finding finding = Only(set, FindingCode.FrameSizeDiffers, FindingSeverity.Warning);
        Assert.Equal(["bracket/odd.dng"], finding.Frames);
        Assert.Contains("160 × 120", finding.Message, StringComparison.Ordinal);
        Assert.Equal(odd, Assert.Single(set.LeftOut));
    }

    [Fact]
    public void FrameSizeDiffers_OtherFilters_IsLeftOut()
    {
        SetFrame odd = MadeUpSet.Frame(FrameRole.Bracket, 100, 0.01, "bracket/odd.dng");
        odd = odd with { Raw = odd.Raw with { Layout = odd.Raw.Layout with { ColourFilterArray = ColourFilterArray.Bggr } } };

        Only(FrameSetBuilder.Build([.. MadeUpSet.Clean(), odd], GreyMethod.Metered), FindingCode.FrameSizeDiffers, FindingSeverity.Warning);
    }

    [Fact]
    public void FirmwareUnknown_ConvertersName_IsANote()
    {
        List<SetFrame> frames = MadeUpSet.Clean().Change(_ => true, m => m with { Firmware = "Skerry Converter 3", FirmwareIsConverter = true });

        Finding finding = Only(FrameSetBuilder.Build(frames, GreyMethod.Metered), FindingCode.FirmwareUnknown, FindingSeverity.Note);

        Assert.Contains("Skerry Converter 3", finding.Message, StringComparison.Ordinal);
    }

    private static FrameSet Without(FrameRole role, int iso) => FrameSetBuilder.Build(
        [.. MadeUpSet.Clean(100, 400).Where(f => f.Role != role || f.Raw.Metadata.Iso != iso)],
        GreyMethod.Metered);

    private static Finding Only(FrameSet set, string code, FindingSeverity severity)
    {
        Finding finding = Assert.Single(set.Findings);
        Assert.Equal((code, severity), (finding.Code, finding.Severity));
        Assert.NotEmpty(finding.Message);
        Assert.NotEmpty(finding.Remedy);
        return finding;
    }
}
