using SensorLab.Profiles;
using SensorLab.Reports.Tests.Samples;

namespace SensorLab.Reports.Tests;

public sealed class ProfileReviewTests
{
    [Fact]
    public void Of_NoWarnings_IsYesAndNothingToShoot()
    {
        ProfileReview review = ProfileReview.Of(SampleProfile.ThreeIsos());

        Assert.Equal(ProfileUse.Yes, review.CanUse);
        Assert.Equal("Yes: both ends stand at all 3 ISOs measured, and no warning casts doubt on them.", review.Sentence);
        Assert.Empty(review.ShootAgain);
        Assert.Equal("stands", review.StateOf(400));
    }

    [Fact]
    public void Of_WarningAndRefusal_TellsWhatStandsAndWhatToShoot()
    {
        ProfileReview review = ProfileReview.Of(SampleProfile.ThreeIsos() with
        {
            Findings = [Found(FindingCode.LightDrift, FindingSeverity.Warning, 100), Found(FindingCode.MeteredMissing, FindingSeverity.Refusal, 3200), Found(FindingCode.GainSwitch, FindingSeverity.Note, 400)],
        });

        Assert.Equal(ProfileUse.Yes, review.CanUse);
        Assert.Equal("Yes, where it stands: ISO 400 and 1600 stand; ISO 100 is in doubt (light-drift); ISO 3200 was refused (metered-missing).", review.Sentence);
        Assert.Equal(["ISO 3200: the metered frames (metered-missing).", "ISO 100: the bracket, under a steady light (light-drift)."], review.ShootAgain);
        Assert.Equal("in doubt: light-drift", review.StateOf(100));
    }

    [Fact]
    public void Of_WarningAgainstTheSet_IsAgainstEveryIso()
    {
        ProfileReview review = ProfileReview.Of(SampleProfile.ThreeIsos() with { Findings = [Found(FindingCode.RawFiltered, FindingSeverity.Warning, null)] });

        Assert.Equal(ProfileUse.OnlyWithCare, review.CanUse);
        Assert.Equal("Only with care: ISO 100, 400 and 1600 are in doubt (raw-filtered).", review.Sentence);
        Assert.Equal(["The whole set, with noise reduction and sharpening off (raw-filtered)."], review.ShootAgain);
    }

    [Fact]
    public void Of_Bounds_DoNotStand() => Assert.Equal(
        "Only with care: ISO 100, 400 and 1600 are in doubt (only a bound of the bright end, only a bound of the shadow end).",
        ProfileReview.Of(SampleStates.Of("bounds")).Sentence);

    [Fact]
    public void Of_NothingMeasured_IsNo()
    {
        ProfileReview review = ProfileReview.Of(SampleStates.Of("absent"));

        Assert.Equal(ProfileUse.No, review.CanUse);
        Assert.Equal("No: neither a bright end nor a shadow end was measured; ISO 100, 400 and 1600 are in doubt (no bright end, no shadow end).", review.Sentence);
    }

    [Fact]
    public void Of_ManyIsos_AreCounted()
    {
        ProfileReview review = ProfileReview.Of(SampleProfile.TwentyIsos() with { Findings = [Found(FindingCode.LightDrift, FindingSeverity.Warning, 100)] });

        Assert.StartsWith("Yes, where it stands: 19 ISOs between", review.Sentence, StringComparison.Ordinal);
    }

    // A finding that a body gives of itself is no reason to shoot again.
    [Fact]
    public void ShootAgain_BodysOwnTraits_AskForNothing() => Assert.Empty(ProfileReview.Of(SampleProfile.ThreeIsos() with
    {
        Findings = [Found(FindingCode.ResponseNonlinear, FindingSeverity.Warning, 100), Found(FindingCode.BlackClipped, FindingSeverity.Warning, 400), Found(FindingCode.ShadowBanded, FindingSeverity.Warning, 400)],
    }).ShootAgain);

    // What the figures are free of casts no doubt, whatever its weight.
    [Fact]
    public void Of_FlickerTakenOut_StandsAndAsksForNothing()
    {
        ProfileReview review = ProfileReview.Of(SampleProfile.ThreeIsos() with { Findings = [Found(FindingCode.LightFlicker, FindingSeverity.Warning, 100)] });

        Assert.Equal(ProfileUse.Yes, review.CanUse);
        Assert.Equal("stands", review.StateOf(100));
        Assert.Empty(review.ShootAgain);
    }

    private static Finding Found(string code, FindingSeverity severity, int? iso) => new() { Code = code, Severity = severity, Iso = iso, Message = "m", Remedy = "r" };
}
