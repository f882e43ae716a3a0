using SensorLab.Profiles;

namespace SensorLab.Tests;

public sealed class PreviewTroublesTests
{
    private static readonly Dictionary<string, (int Iso, string Why)> None = [];

    [Fact]
    public void Findings_EveryIsoShown_AreNone() => Assert.Empty(PreviewTroubles.Findings([100, 400], new HashSet<int> { 100, 400 }, false, None));

    [Fact]
    public void Findings_LibraryMissing_IsOneWithWhatToInstall()
    {
        Finding finding = Assert.Single(PreviewTroubles.Findings([100, 400], new HashSet<int>(), true, None));

        Assert.Equal((FindingCode.PreviewMissing, FindingSeverity.Note), (finding.Code, finding.Severity));
        Assert.StartsWith("Install", finding.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void Findings_OneIsoWithout_NamesIt() => Assert.Equal(400, Assert.Single(PreviewTroubles.Findings([100, 400], new HashSet<int> { 100 }, false, None)).Iso);

    [Fact]
    public void Findings_DamagedPreviewsAndAnIsoWithout_AreBothTold()
    {
        Dictionary<string, (int Iso, string Why)> damaged = new() { ["b.dng"] = (100, "The picture is cut off."), ["a.dng"] = (100, "The picture is cut off.") };

        IReadOnlyList<Finding> findings = PreviewTroubles.Findings([100, 400], new HashSet<int>(), false, damaged);

        Assert.Equal(["a.dng", "b.dng"], findings[0].Frames);
        Assert.Equal(400, findings[1].Iso);
    }
}
