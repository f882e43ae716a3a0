using System.Text.Json;
using SensorLab.Profiles;
using SensorLab.Sets.Checks;

namespace SensorLab.Sets.Tests;

/// <summary>Sets, and lists of findings, beyond what a profile can hold.</summary>
public sealed class SetSizeTests
{
    [Theory]
    [InlineData(64, false)]
    [InlineData(65, true)]
    public void Build_MoreIsosThanAProfileHolds_IsRefused(int isos, bool isRefused)
    {
        FrameSet set = FrameSetBuilder.Build(MadeUpSet.Clean([.. Enumerable.Range(100, isos)]), GreyMethod.Metered);

        Assert.Equal(isRefused, set.IsRefused);
        Assert.Equal(isRefused, set.Findings.Any(f => f is { Code: FindingCode.SetTooLarge, Severity: FindingSeverity.Refusal, Size: 65 }));
    }

    [Fact]
    public void Limits_AreTheSchemas()
    {
        using var schema = JsonDocument.Parse(SensorProfileSchema.Json);
        JsonElement iso = schema.RootElement.GetProperty("$defs").GetProperty("isoProfile").GetProperty("properties");
        JsonElement all = schema.RootElement.GetProperty("properties");

        Assert.Equal(
            [SetSizeCheck.MostIsos, SetSizeCheck.MostLights, SetSizeCheck.MostLevels, SetSizeCheck.MostLooks],
            new[] { all.GetProperty("isoProfiles"), all.GetProperty("lights"), iso.GetProperty("levels"), iso.GetProperty("previews") }.Select(p => p.GetProperty("maxItems").GetInt32()));
    }

    [Fact]
    public void WorstFirst_ACrowdOfOneKind_IsToldByAHundredAndShortenedOnce()
    {
        Finding[] crowd = [.. Enumerable.Range(0, 5000).Select(i => Unreadable($"{i:0000}.dng"))];

        IReadOnlyList<Finding> told = FindingOrder.WorstFirst(crowd.Append(Unreadable("x.dng") with { Code = FindingCode.FrameUnsuitable }));

        Assert.Equal(101, told.Count);
        Finding rest = Assert.Single(told, f => f.Size == 4901);
        Assert.StartsWith("4901 more such findings", rest.Message, StringComparison.Ordinal);
        Assert.Equal("0099.dng", rest.Frames[0]);
        Assert.Equal(told, FindingOrder.WorstFirst(told));
    }

    private static Finding Unreadable(string file) => new()
    {
        Code = FindingCode.FrameUnreadable,
        Severity = FindingSeverity.Warning,
        Frames = [file],
        Message = $"{file} cannot be read.",
        Remedy = "Copy it again.",
    };
}
