using SensorLab.Profiles;

namespace SensorLab.Sets.Tests;

/// <summary>Of many findings of one kind a hundred are told, the last for the rest.</summary>
public sealed class FindingCrowdTests
{
    [Fact]
    public void Shortened_AHundredAlike_AreAllTold()
    {
        Finding[] all = Alike(100);

        Assert.Equal(all, FindingCrowd.Shortened(all));
    }

    [Theory]
    [InlineData(101, 2)]
    [InlineData(150, 51)]
    [InlineData(1099, 1000)]
    [InlineData(1500, 1000)]
    public void Shortened_MoreAlike_OneStandsForTheRestAndNamesAThousandFilesAtMost(int count, int named)
    {
        IReadOnlyList<Finding> told = FindingCrowd.Shortened(Alike(count));

        Assert.Equal(100, told.Count);
        Assert.Equal(count - 99, told[^1].Size);
        Assert.Equal(named, told[^1].Frames.Count);
        Assert.Equal("99.dng", told[^1].Frames[0]);
    }

    private static Finding[] Alike(int count) =>
    [
        .. Enumerable.Range(0, count).Select(i => new Finding
        {
            Code = FindingCode.PixelsHot,
            Severity = FindingSeverity.Note,
            Frames = [$"{i}.dng"],
            Message = "One of many.",
            Remedy = "None.",
        }),
    ];
}
