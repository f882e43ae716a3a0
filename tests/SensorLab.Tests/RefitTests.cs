using SensorLab.Measurement.Sets;
using SensorLab.Profiles;

namespace SensorLab.Tests;

public sealed class RefitTests(RehearsedProfile rehearsed) : IClassFixture<RehearsedProfile>
{
    private readonly SensorProfile _profile = rehearsed.Profile;

    [Fact]
    public void Of_TheSameOptions_GivesTheSameBytes() =>
        Assert.Equal(Bytes(_profile), Bytes(Refit.Of(ReadBack(_profile), new CharacterisationOptions())));

    [Fact]
    public void Of_AnotherCriterion_LiesBetweenItsNeighboursAndLeavesTheRest()
    {
        SensorProfile refitted = Refit.Of(_profile, new CharacterisationOptions { SnrCriteria = [7] });

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
        SensorProfile refitted = Refit.Of(_profile, new CharacterisationOptions { Grey = GreyMethod.Saturation });

        // ISO 12232: saturation exposure / 7.8 is middle grey, hence log2(7.8) above it.
        Assert.All(refitted.IsoProfiles, iso => Assert.Equal(Math.Log2(7.8), iso.Latitude.AboveEv!.Value!.Value, 1e-9));
        Assert.Equal("saturation", refitted.MiddleGrey.Method);
    }

    [Fact]
    public void Of_ARegion_IsRefusedSinceThePixelsAreGone() =>
        Assert.Equal("--region", Assert.Throws<CharacterisationOptionsException>(
            () => Refit.Of(_profile, new CharacterisationOptions { Region = new MeasuredRegion(0, 0, 64, 64) })).Option);

    [Fact]
    public void Of_AProfileWithoutMeteredLevels_IsRefusedByName()
    {
        SensorProfile unmetered = _profile with
        {
            IsoProfiles = [.. _profile.IsoProfiles.Select(i => i with { Levels = [.. i.Levels.Where(l => l.Role != "metered")] })],
        };

        FrameSetRefusedException refused = Assert.Throws<FrameSetRefusedException>(() => Refit.Of(unmetered, new CharacterisationOptions()));
        Assert.Contains(refused.Findings, f => f is { Code: FindingCode.MeteredMissing, Severity: FindingSeverity.Refusal, Iso: 100 });
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
