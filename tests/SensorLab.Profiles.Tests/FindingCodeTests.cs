using System.Reflection;
using System.Text.RegularExpressions;
using SensorLab.TestData;

namespace SensorLab.Profiles.Tests;

public sealed partial class FindingCodeTests
{
    private static readonly string[] Codes =
        [.. typeof(FindingCode).GetFields(BindingFlags.Public | BindingFlags.Static).Select(f => (string)f.GetRawConstantValue()!)];

    /// <summary>The rows of the measurement model's catalogue, cell by cell.</summary>
    private static readonly string[][] Catalogue =
    [
        .. File.ReadAllText(Path.Combine(Repository.Root, "protocols", "measurement-model.md"))
            .Split("## 12. Findings")[1].Split("\n## ")[0].Split('\n')
            .Where(line => line.StartsWith("| `", StringComparison.Ordinal))
            .Select(line => line.Split('|', StringSplitOptions.TrimEntries)[1..^1]),
    ];

    [Fact]
    public void FindingCode_Constants_AreTheCatalogueEachOnce()
    {
        Assert.Distinct(Codes);
        Assert.All(Codes, code => Assert.Matches("^[a-z]+(-[a-z]+)+$", code));
    }

    [Fact]
    public void FindingCode_ConstantNames_AreTheCodesInPascalCase() =>
        Assert.All(typeof(FindingCode).GetFields(BindingFlags.Public | BindingFlags.Static), field =>
            Assert.Equal(field.Name.ToUpperInvariant(), ((string)field.GetRawConstantValue()!).Replace("-", string.Empty, StringComparison.Ordinal).ToUpperInvariant()));

    [Fact]
    public void FindingCode_MeasurementModel_ListsTheSameCodes()
    {
        IEnumerable<string> listed = Catalogue.SelectMany(row => CodeInTicks().Matches(row[0]).Select(m => m.Groups[1].Value));

        Assert.Equal(Codes.Order(StringComparer.Ordinal), listed.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Catalogue_EveryRow_HasMeaningSeverityThresholdAndRemedy() =>
        Assert.All(Catalogue, row => Assert.True(row.Length == 5 && row.All(cell => cell.Length > 0), string.Join(" | ", row)));

    [GeneratedRegex("`([^`]+)`")]
    private static partial Regex CodeInTicks();
}
