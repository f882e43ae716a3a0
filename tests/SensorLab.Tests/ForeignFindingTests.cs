using SensorLab.Profiles;
using SensorLab.Sets;
using SensorLab.TestData;

namespace SensorLab.Tests;

/// <summary>Findings on sets that our own simulator did not make.</summary>
public sealed class ForeignFindingTests
{
    private static readonly string SharedFolder = Path.Combine(Repository.Root, "..", "shared");

    [Theory]
    [InlineData("clean")]
    [InlineData("coarse")]
    public async Task ForeignSet_WithoutFlaw_CarriesNoWarning(string name)
    {
        SensorProfile profile = await CharacteriseAsync(Path.Combine(SharedFolder, "foreign-sets", name), GreyMethod.Metered);

        Assert.DoesNotContain(profile.Findings, f => f.Severity != FindingSeverity.Note);
    }

    [Fact]
    public async Task ForeignSet_UnderPulsedLight_IsBandedAndNothingElse()
    {
        SensorProfile profile = await CharacteriseAsync(Path.Combine(SharedFolder, "foreign-sets", "pulsed"), GreyMethod.Metered);

        Finding warning = Assert.Single(profile.Findings, f => f.Severity != FindingSeverity.Note);
        Assert.Equal(FindingCode.LightBanded, warning.Code);
    }

    // What its README says of the bracket: black drifts by 10 DN, three flats at 6 s under another lamp, hot pixels, odd
    // and even columns differ, the full well lies below the converter's ceiling, and all levels but one have one frame.
    [Fact]
    public async Task RealBracket_OfALaboratorySensor_HasTheFindingsThatACarefulPersonWouldList()
    {
        SensorProfile profile = await CharacteriseAsync(Path.Combine(SharedFolder, "real-data", "flats-ccd"), GreyMethod.Saturation);

        string[] expected =
        [
            FindingCode.BlackDrift, FindingCode.LightStepped, FindingCode.ExposureInexact, FindingCode.PixelsHot, FindingCode.NoiseBanded,
            FindingCode.TargetUneven, FindingCode.LevelsDeclared, FindingCode.PairMissing, FindingCode.LevelsTooFew,
        ];
        Assert.Empty(expected.Except(profile.Findings.Select(f => f.Code)));
        Assert.Equal(
            ["bracket/F022.dng", "bracket/F023.dng", "bracket/F024.dng"],
            profile.Findings.Single(f => f.Code == FindingCode.LightStepped).Frames);
    }

    private static Task<SensorProfile> CharacteriseAsync(string folder, GreyMethod grey)
    {
        Assert.SkipUnless(Directory.Exists(folder), "The shared data are not here.");
        return Characterisation.RunAsync(folder, new CharacterisationOptions { Grey = grey }, null, TestContext.Current.CancellationToken);
    }
}
