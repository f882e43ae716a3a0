using SensorLab.Cli.Presentation;
using SensorLab.Law;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests.Presentation;

public sealed class LatitudeTableTests
{
    private static readonly Dictionary<string, SensorProfile> Samples = new()
    {
        ["three"] = SampleProfiles.ThreeIsos(),
        ["mono"] = SampleProfiles.Monochrome(),
        ["bounds"] = SampleProfiles.Bounds(),
        ["hostile"] = SampleProfiles.HostileStrings(),
    };

    [Theory]
    [InlineData("three")]
    [InlineData("mono")]
    [InlineData("bounds")]
    [InlineData("hostile")]
    public void Lines_EverySample_FitEightyColumnsWithoutControlCharacters(string name)
    {
        IReadOnlyList<string> lines = LatitudeTable.Lines(Samples[name]);

        Assert.All(lines.Where(l => l.Contains(' ', StringComparison.Ordinal)), l => Assert.InRange(l.Length, 0, 80));
        Assert.All(lines, l => Assert.DoesNotContain(l, char.IsControl));
        Assert.All(lines, l => Assert.Equal(l.TrimEnd(), l));
    }

    [Fact]
    public void Lines_ThreeIsos_AreAsApproved() =>
        GoldenFile.Verify(string.Join('\n', LatitudeTable.Lines(WithBudgets(SampleProfiles.ThreeIsos()))), "tests/SensorLab.Cli.Tests/Approved/table-three-isos.txt");

    [Fact]
    public void Lines_Bounds_AreMarkedAsBounds()
    {
        string text = Text(SampleProfiles.Bounds());

        Assert.Contains("+2.40 or above", text, StringComparison.Ordinal);
        Assert.Contains("-4.20 or below", text, StringComparison.Ordinal);
        Assert.Contains("+0.50 ±0.04", text, StringComparison.Ordinal);
        Assert.Contains("reached only above middle grey", text, StringComparison.Ordinal);
        Assert.Contains("saturation-based speed", text, StringComparison.Ordinal);
        Assert.Contains("Unnamed body", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Lines_RefusedIso_IsListedWithItsReason() =>
        Assert.Contains("  3200  refused: metered-missing", Text(SampleProfiles.ThreeIsos()), StringComparison.Ordinal);

    [Fact]
    public void Lines_WarningsAndNotNotes_AreDoubts()
    {
        string text = Text(SampleProfiles.ThreeIsos());

        Assert.Contains("In doubt: light-drift", text, StringComparison.Ordinal);
        Assert.DoesNotContain("target-uneven", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Lines_WarningOfTheWholeSet_IsToldForEveryIso()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        Finding finding = profile.Findings[2] with { Severity = FindingSeverity.Warning, Code = FindingCode.FrameDuplicate };

        Assert.Contains("In doubt at every ISO: frame-duplicate", Text(profile with { Findings = [finding] }), StringComparison.Ordinal);
    }

    [Fact]
    public void Lines_CriterionOfTheUsers_IsShown()
    {
        SensorProfile profile = SampleProfiles.Monochrome();
        IsoProfile iso = profile.IsoProfiles[0];
        ShadowEnd end = new() { Snr = 7.5, PerPixel = Figure.Estimate(5.25, 0.01, 5.23, 5.27) };
        iso = iso with { Latitude = iso.Latitude with { BelowEv = [end, .. iso.Latitude.BelowEv] } };

        Assert.Contains("SNR 7.5: -5.25 ±0.02 EV from grey", Text(profile with { IsoProfiles = [iso] }), StringComparison.Ordinal);
    }

    [Fact]
    public void Lines_EveryFigure_EqualsTheProfiles()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        IReadOnlyList<string> lines = LatitudeTable.Lines(profile);

        foreach (IsoProfile iso in profile.IsoProfiles)
        {
            string row = Assert.Single(lines, l => l.StartsWith($"{iso.Iso,6}  ", StringComparison.Ordinal));
            string[] numbers = row.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            Assert.Equal(iso.Latitude.AboveEv!.Value!.Value, Number(numbers[1]), 0.005);
            Assert.Equal(-iso.Latitude.BelowEv[0].PerPixel!.Value!.Value, Number(numbers[3]), 0.005);
            Assert.Equal(-iso.Latitude.BelowEv[2].PerPixel!.Value!.Value, Number(numbers[5]), 0.005);
            Assert.Equal(iso.Channels[1].MiddleGreyDn!.Value!.Value, Number(numbers[7]), 0.5);
        }
    }

    [Fact]
    public void Lines_OfFiguresWithBudgets_PrintTheIntervalThatASecondSetWouldRespect()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        IsoProfile iso = profile.IsoProfiles[0];
        Figure above = iso.Latitude.AboveEv! with { Budget = new FigureBudget { StandardUncertainty = 0.08, Lower95 = 3.04, Upper95 = 3.36, Parts = [] } };

        string text = Text(profile with { IsoProfiles = [iso with { Latitude = iso.Latitude with { AboveEv = above } }] });

        Assert.Contains("+3.20 ±0.16", text, StringComparison.Ordinal);
        Assert.Contains("a set shot anew would respect", text, StringComparison.Ordinal);
        Assert.DoesNotContain("On location the meter adds", text, StringComparison.Ordinal);
    }

    private static double Number(string text) => double.Parse(text, System.Globalization.CultureInfo.InvariantCulture);

    private static SensorProfile WithBudgets(SensorProfile profile) =>
        profile with { IsoProfiles = [.. profile.IsoProfiles.Select(i => FigureBudgets.Complete(i, profile.MiddleGrey.MeterStepEv))] };

    private static string Text(SensorProfile profile) => string.Join('\n', LatitudeTable.Lines(profile));
}
