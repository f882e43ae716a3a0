using SensorLab.TestData;

namespace SensorLab.Profiles.Tests;

/// <summary>A profile of every released format stays readable. Files under Released are never changed, only added.</summary>
public sealed class ReleasedFormatTests
{
    private static readonly string Folder = Path.Combine(Repository.Root, "tests", "SensorLab.Profiles.Tests", "Released");

    public static TheoryData<string> Versions => [.. Directory.GetFiles(Folder, "*.json").Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal)];

    [Fact]
    public void CurrentFormatVersion_IsAmongThem() => Assert.Contains(SensorProfile.CurrentFormatVersion, Versions.Select(row => row.Data));

    [Theory]
    [MemberData(nameof(Versions))]
    public void Read_ReleasedProfile_GivesItsFigures(string version)
    {
        var profile = SensorProfileReader.ReadFile(Path.Combine(Folder, version + ".json"));

        Assert.Equal(version, profile.FormatVersion);
        Assert.Equal([100, 400, 1600], profile.IsoProfiles.Select(iso => iso.Iso));
        Assert.Equal(3.2, profile.IsoProfiles[0].Latitude.AboveEv!.Value);
        Assert.Equal(0.02, profile.IsoProfiles[0].Channels[1].ReadNoiseElectron!.StandardUncertainty);
        Assert.Equal(12, profile.IsoProfiles[0].Levels.Count);
        Assert.Equal(3, profile.Findings.Count);
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void Schema_ReleasedProfile_IsStillValid(string version)
    {
        using var document = System.Text.Json.JsonDocument.Parse(File.ReadAllText(Path.Combine(Folder, version + ".json")));

        Assert.True(SensorProfileSchemaTests.Schema.Evaluate(document.RootElement).IsValid);
    }
}
