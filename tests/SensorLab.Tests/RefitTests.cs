using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Tests;

public sealed class RefitTests(RehearsedProfile rehearsed) : IClassFixture<RehearsedProfile>
{
    private readonly SensorProfile _profile = rehearsed.Profile;

    [Fact]
    public void Of_TheSameOptions_GivesTheSameBytes() =>
        Assert.Equal(Bytes(_profile), Bytes(Refit.Of(ReadBack(_profile), new CharacterisationOptions(), TestContext.Current.CancellationToken)));

    [Fact]
    public void Of_AnotherCriterion_LiesBetweenItsNeighboursAndLeavesTheRest()
    {
        SensorProfile refitted = Refit.Of(_profile, new CharacterisationOptions { SnrCriteria = [7] }, TestContext.Current.CancellationToken);

        foreach ((IsoProfile before, IsoProfile after) in _profile.IsoProfiles.Zip(refitted.IsoProfiles))
        {
            Assert.Equal([40, 20, 10, 7, 4, 1], after.Latitude.BelowEv.Select(b => b.Snr));
            double at7 = after.Latitude.BelowEv[3].PerPixel!.Value!.Value;
            Assert.InRange(at7, before.Latitude.BelowEv[2].PerPixel!.Value!.Value, before.Latitude.BelowEv[3].PerPixel!.Value!.Value);
            Assert.Equal(before.Latitude.AboveEv! with { Budget = null }, after.Latitude.AboveEv! with { Budget = null });
        }
    }

    [Fact]
    public void Of_GreyBySaturation_PutsTheFirstChannelAtTheStandardsPlace()
    {
        SensorProfile refitted = Refit.Of(_profile, new CharacterisationOptions { Grey = GreyMethod.Saturation }, TestContext.Current.CancellationToken);

        // ISO 12232: saturation exposure / 7.8 is middle grey, hence log2(7.8) above it.
        Assert.All(refitted.IsoProfiles, iso => Assert.Equal(Math.Log2(7.8), iso.Latitude.AboveEv!.Value!.Value, 1e-9));
        Assert.Equal("saturation", refitted.MiddleGrey.Method);
    }

    [Fact]
    public void Of_ARegion_IsRefusedSinceThePixelsAreGone() =>
        Assert.Equal("--region", Assert.Throws<CharacterisationOptionsException>(
            () => Refit.Of(_profile, new CharacterisationOptions { Region = new MeasuredRegion(0, 0, 64, 64) }, TestContext.Current.CancellationToken)).Option);

    [Fact]
    public void Of_AProfileWithoutMeteredLevels_IsRefusedByName()
    {
        SensorProfile unmetered = _profile with
        {
            IsoProfiles = [.. _profile.IsoProfiles.Select(i => i with { Levels = [.. i.Levels.Where(l => l.Role != "metered")] })],
        };

        FrameSetRefusedException refused = Assert.Throws<FrameSetRefusedException>(() => Refit.Of(unmetered, new CharacterisationOptions(), TestContext.Current.CancellationToken));
        Assert.Contains(refused.Findings, f => f is { Code: FindingCode.MeteredMissing, Severity: FindingSeverity.Refusal, Iso: 100 });
    }

    [Theory]
    [InlineData("frameMeansDn")]
    [InlineData("meanDn")]
    [InlineData("lowestCodeDn")]
    [InlineData("spotMeanUncertaintyDn")]
    [InlineData("temporalVarianceDn2")]
    [InlineData("fixedPatternVarianceDn2")]
    public void Of_ALevelThatContradictsItself_IsRefusedWithItsPlace(string what)
    {
        LevelRecord level = _profile.IsoProfiles[0].Levels[1];
        LevelChannel channel = level.Channels[2];
        LevelChannel other = what switch
        {
            "frameMeansDn" => channel with { FrameMeansDn = [] },
            "meanDn" => channel with { MeanDn = channel.MeanDn * 1.001 },
            "lowestCodeDn" => channel with { LowestCodeDn = channel.HighestCodeDn },
            "spotMeanUncertaintyDn" => channel with { SpotMeanDn = channel.MeanDn, SpotMeanUncertaintyDn = null },
            "temporalVarianceDn2" => channel with { TemporalParts = channel.TemporalParts! with { PixelDn2 = -1 } },
            _ => channel with { FixedPatternVarianceDn2 = channel.FixedPatternVarianceDn2 + 1 },
        };
        SensorProfile contradictory = _profile with
        {
            IsoProfiles = [_profile.IsoProfiles[0] with { Levels = [_profile.IsoProfiles[0].Levels[0], level with { Channels = [.. level.Channels.Take(2), other, .. level.Channels.Skip(3)] }, .. _profile.IsoProfiles[0].Levels.Skip(2)] }, .. _profile.IsoProfiles.Skip(1)],
        };

        ProfileFormatException refused = Assert.Throws<ProfileFormatException>(() => Refit.Of(contradictory, new CharacterisationOptions(), TestContext.Current.CancellationToken));
        Assert.Contains("isoProfiles[0].levels[1].channels[2]." + (what == "lowestCodeDn" ? "meanDn" : what), refused.Message, StringComparison.Ordinal);
    }

    private static SensorProfile ReadBack(SensorProfile profile)
    {
        using var document = new MemoryStream(Bytes(profile));
        return SensorProfileReader.Read(document);
    }

    private static byte[] Bytes(SensorProfile profile)
    {
        using var document = new MemoryStream();
        SensorProfileWriter.Write(profile, document);
        return document.ToArray();
    }
}
