using SensorLab.Profiles;
using SensorLab.Retest.Confirm;
using SensorLab.TestData;

namespace SensorLab.Retest.Tests.Confirm;

/// <summary>What a confirmation says of frames, and asks for.</summary>
public sealed class ConfirmationTests
{
    private static SensorProfile Profile => SampleProfiles.ThreeIsos();

    [Fact]
    public void Confirm_BorrowedProfileThatFits_IsUsableWithALargerUncertainty()
    {
        ConfirmResult result = Of(new LevelsOnlyJob(3) { SerialNumber = "other" });

        Assert.Equal(ConfirmVerdict.Consistent, result.Verdict);
        Assert.Contains(result.Notes, note => note.Contains("The profile can be used for these frames at ISO 400", StringComparison.Ordinal) && note.Contains("uncertainty", StringComparison.Ordinal));
    }

    [Fact]
    public void Confirm_BorrowedProfileWithoutDarkOrMeteredFrames_AsksForThem()
    {
        JobEvidence bare = Bare(new LevelsOnlyJob(3) { SerialNumber = "other" }.Draw(Profile, 400));

        ConfirmResult result = Confirmation.Of(Profile, bare, RetestMargins.Default);

        Assert.Equal(ConfirmVerdict.Undecided, result.Verdict);
        Assert.Contains(result.Wanted, w => w.StartsWith("Five dark frames at ISO 400", StringComparison.Ordinal));
        Assert.Contains(result.Wanted, w => w.StartsWith("Five frames of an even, unfocused field at ISO 400", StringComparison.Ordinal));
    }

    [Fact]
    public void Confirm_OwnBodysEverydayFrames_AreConsistentAndSayWhatWasNotTested()
    {
        ConfirmResult result = Confirmation.Of(Profile, Bare(new LevelsOnlyJob(3).Draw(Profile, 400)), RetestMargins.Default);

        Assert.Equal(ConfirmVerdict.Consistent, result.Verdict);
        Assert.Contains(result.Notes, note => note.StartsWith("Nothing here was measured that gain or black hang on", StringComparison.Ordinal));
        Assert.Equal(2, result.Wanted.Count);
    }

    [Theory]
    [InlineData("model")]
    [InlineData("mode")]
    [InlineData("white")]
    [InlineData("clip")]
    public void Confirm_WhatFilesSay_IsDifferentByName(string what)
    {
        JobEvidence own = new LevelsOnlyJob(3).Draw(Profile, 400);
        SensorProfile profile = what == "white" ? WithWhite(Profile) : Profile;
        JobEvidence evidence = what switch
        {
            "model" => own with { Bodies = [own.Bodies[0] with { Model = "LM-9" }] },
            "mode" => own with { ModeDifferences = ["12 bits in place of 14"] },
            "white" => With(own, c => c with { DeclaredWhiteDn = 15000 }),
            _ => With(own, c => c with { PileCodeDn = 15000 }),
        };
        string check = what switch { "model" => "body", "mode" => "recordingMode", "white" => "declaredWhite", _ => "clipCode" };
        if (what == "clip" && !Profile.IsoProfiles[1].Levels.SelectMany(l => l.Channels).Any(c => c.ClippedFraction > 0.01))
        {
            profile = Clipping(profile);
        }

        ConfirmResult result = Confirmation.Of(profile, evidence, RetestMargins.Default);

        Assert.Equal(ConfirmVerdict.Different, result.Verdict);
        Assert.All(result.Checks.Where(c => c.Verdict == ConfirmVerdict.Different), c => Assert.Equal(check, c.Check));
    }

    private static ConfirmResult Of(LevelsOnlyJob job) => Confirmation.Of(Profile, job.Draw(Profile, 400), RetestMargins.Default);

    private static JobEvidence Bare(JobEvidence evidence) => With(evidence, c => c with { DarkMeanDn = null, DarkVarianceDn2 = null, LitMeanDn = null, LitVarianceDn2 = null });

    private static JobEvidence With(JobEvidence evidence, Func<ChannelEvidence, ChannelEvidence> change) =>
        evidence with { Isos = [.. evidence.Isos.Select(i => i with { Channels = [.. i.Channels.Select(change)] })] };

    private static SensorProfile WithWhite(SensorProfile profile) =>
        profile with { IsoProfiles = [.. profile.IsoProfiles.Select(i => i with { Channels = [.. i.Channels.Select(c => c with { DeclaredWhiteDn = 16383 })] })] };

    private static SensorProfile Clipping(SensorProfile profile) => profile with
    {
        IsoProfiles = [.. profile.IsoProfiles.Select(i => i with { Levels = [.. i.Levels.Select(l => l with { Channels = [.. l.Channels.Select(c => c with { ClippedFraction = 0.5, HighestCodeDn = 16383 })] })] })],
    };
}
