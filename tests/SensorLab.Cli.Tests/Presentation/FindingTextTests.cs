using SensorLab.Cli.Presentation;
using SensorLab.Profiles;
using SensorLab.Reports;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests.Presentation;

public sealed class FindingTextTests
{
    private static readonly Finding Plain = new()
    {
        Code = FindingCode.PairMissing,
        Severity = FindingSeverity.Warning,
        Iso = 400,
        Message = "One level has a single frame.",
        Remedy = "Shoot two.",
    };

    [Fact]
    public void Lines_Finding_SaySeverityCodePlaceAndRemedy() => Assert.Equal(
        ["warning: pair-missing, ISO 400", "    One level has a single frame.", "    Remedy: Shoot two."],
        FindingText.Lines(Group(Plain)));

    [Fact]
    public void Lines_ManyFrames_NameSomeAndCountTheRest()
    {
        Finding finding = Plain with { Frames = [.. Enumerable.Range(1, 7).Select(i => $"P{i}.dng")] };

        Assert.Equal("    Frames: P1.dng, P2.dng, P3.dng, P4.dng and 3 more", FindingText.Lines(Group(finding)).Last());
    }

    [Fact]
    public void Lines_FrameThatTheMessageNames_IsNotNamedTwice() => Assert.DoesNotContain(
        FindingText.Lines(Group(Plain with { Frames = ["a.dng"], Message = "a.dng cannot be read." })),
        l => l.Contains("Frames:", StringComparison.Ordinal));

    [Fact]
    public void Lines_LongMessage_IsBrokenAtEightyColumns()
    {
        Finding finding = Plain with { Message = string.Join(' ', Enumerable.Repeat("word", 60)) };

        string[] lines = [.. FindingText.Lines(Group(finding))];

        Assert.All(lines, l => Assert.InRange(l.Length, 1, 80));
        Assert.Equal(60, lines.Sum(l => l.Split(' ').Count(w => w == "word")));
    }

    [Fact]
    public void Lines_HostileText_HasNoControlCharacters() =>
        Assert.All(FindingText.Lines(Group(SampleProfiles.HostileStrings().Findings[0])), l => Assert.DoesNotContain(l, char.IsControl));

    private static FindingGroup Group(params Finding[] findings) => Assert.Single(FindingGroup.Of(findings));
}
