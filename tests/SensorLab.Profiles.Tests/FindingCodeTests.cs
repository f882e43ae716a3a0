using System.Reflection;
using System.Text.RegularExpressions;
using SensorLab.TestData;

namespace SensorLab.Profiles.Tests;

public sealed partial class FindingCodeTests
{
    // The measurement model's catalogue (section 12), counted by hand.
    private const int CatalogueCount = 46;

    private static readonly string[] Codes =
        [.. typeof(FindingCode).GetFields(BindingFlags.Public | BindingFlags.Static).Select(f => (string)f.GetRawConstantValue()!)];

    [Fact]
    public void FindingCode_Constants_AreTheCatalogueEachOnce()
    {
        Assert.Equal(CatalogueCount, Codes.Length);
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
        string model = Path.Combine(Repository.Root, "..", "shared", "measurement-model.md");
        Assert.SkipUnless(File.Exists(model), "The measurement model is not beside the repository.");
        string catalogue = File.ReadAllText(model).Split("## 12. Findings")[1];

        IEnumerable<string> listed = catalogue.Split('\n')
            .Where(line => line.StartsWith("| `", StringComparison.Ordinal))
            .SelectMany(line => CodeInTicks().Matches(line.Split('|')[1]).Select(m => m.Groups[1].Value));

        Assert.Equal(listed.Order(StringComparer.Ordinal), Codes.Order(StringComparer.Ordinal));
    }

    [GeneratedRegex("`([^`]+)`")]
    private static partial Regex CodeInTicks();
}
