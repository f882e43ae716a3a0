using System.Diagnostics;
using System.Globalization;
using SensorLab.Planning.Plans;
using SensorLab.Planning.Protocols;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Plans;
using SensorLab.Reports.Tables;

namespace SensorLab.Reports.Tests.Plans;

public sealed class PlanSheetTests(PlanPages pages) : IClassFixture<PlanPages>
{
    private const string Reader = "/usr/bin/pdftotext";

    public static TheoryData<string> Protocols => [.. ProtocolLibrary.Names];

    [Theory]
    [MemberData(nameof(Protocols))]
    public void Sheet_AnyProtocol_HoldsEveryStepAndCaution(string name)
    {
        Assert.SkipWhen(!File.Exists(Reader), $"There is no {Reader}: bash src/install.sh --tests installs it.");
        ShotPlan plan = PlanPages.Plan(name);

        string text = Text(pages.File(name, "plan.pdf"));

        string words = WithoutSpaces(text);
        Assert.All(plan.Cautions, c => Assert.Contains(WithoutSpaces(c), words, StringComparison.Ordinal));
        Assert.All(plan.Steps, s => Assert.Contains(WithoutSpaces(string.Create(CultureInfo.InvariantCulture, $"{s.Number} {s.Iso} {PlanWords.Exposure(s)} × {s.Frames} {PlanWords.Kind(s)}")), words, StringComparison.Ordinal));
    }

    // A document keeps letters and places; which gaps are spaces is the reader's guess.
    private static string WithoutSpaces(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));

    [Fact]
    public void Sheet_Twice_GivesTheSameBytes()
    {
        ShotPlan plan = PlanPages.Plan("lights");
        var font = ChartFont.OfThisSystem();

        Assert.Equal(PlanSheet.Of(plan, font), PlanSheet.Of(plan, font));
    }

    [Fact]
    public void Table_Csv_HasARowAStepWithFullDigits()
    {
        ShotPlan plan = PlanPages.Plan("evening");

        string[] lines = System.Text.Encoding.UTF8.GetString(CsvTable.Of(PlanTables.Steps(plan))).TrimEnd('\n').Split('\n');

        Assert.Equal("number,role,iso,shutter,exposureSeconds,frames,ev,lightStep,lightStops,light,look,ripplePercent,actions", lines[0]);
        Assert.Equal(plan.Steps.Count + 1, lines.Length);
        Assert.StartsWith(string.Create(CultureInfo.InvariantCulture, $"1,metered,100,{plan.Steps[0].Shutter},{plan.Steps[0].ExposureSeconds:R},2,"), lines[1], StringComparison.Ordinal);
    }

    private static string Text(string path)
    {
        using Process process = Process.Start(new ProcessStartInfo(Reader, ["-layout", path, "-"]) { RedirectStandardOutput = true })!;
        string text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return text;
    }
}
