using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using CsvHelper;
using SensorLab.Profiles;
using SensorLab.Reports.Documents;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Tables;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Documents;

/// <summary>Every figure of page, paper and CSV is the profile's, and the profile's figures are all there.</summary>
public sealed partial class ReportFiguresTests
{
    private static readonly ChartFont Font = ChartFont.OfThisSystem();

    public static TheoryData<string> States { get; } = ["full", "full monochrome", "full bounds", "three ISOs"];

    [Theory]
    [MemberData(nameof(States))]
    public void Page_EveryFigure_IsTheProfiles(string state)
    {
        SensorProfile profile = ReportPages.Profile(state);
        string text = TextOf(Encoding.UTF8.GetString(HtmlReport.Of(ReportPages.Report(profile))));

        RequireSame(profile, text);
    }

    [Theory]
    [MemberData(nameof(States))]
    public async Task Paper_EveryFigure_IsTheProfiles(string state)
    {
        Assert.SkipUnless(File.Exists("/usr/bin/pdftotext"), "There is no pdftotext: bash src/install.sh --tests installs it.");
        SensorProfile profile = ReportPages.Profile(state);
        string path = Path.Combine(Path.GetTempPath(), $"sensorlab-{Guid.NewGuid():N}.pdf");
        try
        {
            var text = new StringBuilder();
            ReportDocument report = ReportPages.Report(profile);
            foreach (byte[] document in new[] { PdfReport.Of(report, Font, TestContext.Current.CancellationToken), PdfReport.Appendix(report, Font, TestContext.Current.CancellationToken) })
            {
                await File.WriteAllBytesAsync(path, document, TestContext.Current.CancellationToken);
                using Process reader = Process.Start(new ProcessStartInfo("/usr/bin/pdftotext", ["-layout", path, "-"]) { RedirectStandardOutput = true, StandardOutputEncoding = Encoding.UTF8 })!;
                text.Append(await reader.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken));
            }

            RequireSame(profile, text.ToString());
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Theory]
    [MemberData(nameof(States))]
    public void Page_ChannelTables_HoldEachFigureInItsPlace(string state)
    {
        SensorProfile profile = ReportPages.Profile(state);
        string html = Encoding.UTF8.GetString(HtmlReport.Of(ReportPages.Report(profile)));
        foreach (IsoProfile iso in profile.IsoProfiles)
        {
            string table = Regex.Match(html, $"data-name=\"channels-iso-{iso.Iso}\".*?</table>", RegexOptions.Singleline).Value;
            foreach (FigureDefinition definition in FigureDefinitions.OfChannel)
            {
                string row = Row().Matches(table).Select(m => m.Value).Single(r => TextOf(r).TrimStart().StartsWith(definition.Title, StringComparison.Ordinal));
                Assert.Contains($"<a href=\"#{definition.Anchor}\">", row, StringComparison.Ordinal);
                Assert.Contains($"<dt id=\"{definition.Anchor}\">{WebUtility.HtmlEncode(definition.Title)}</dt><dd>{WebUtility.HtmlEncode(definition.Full)}</dd>", html, StringComparison.Ordinal);
                string[] cells = [.. Cell().Matches(row).Select(m => WebUtility.HtmlDecode(m.Groups[1].Value))];
                Assert.Equal(iso.Channels.Count, cells.Length);
                Assert.All(iso.Channels.Zip(cells), pair => RequireCell(ChannelTables.FigureOf(pair.First, definition.Key), pair.Second));
            }
        }
    }

    [Theory]
    [MemberData(nameof(States))]
    public void Csv_Channels_ReadBackToTheLastBit(string state)
    {
        SensorProfile profile = ReportPages.Profile(state);
        string csv = Encoding.UTF8.GetString(CsvTable.Of(ChannelTables.All(profile)));
        string[][] lines = Parse(csv);
        ChannelProfile[] channels = [.. profile.IsoProfiles.OrderBy(i => i.Iso).SelectMany(i => i.Channels)];

        Assert.Equal(channels.Length + 1, lines.Length);
        foreach ((ChannelProfile channel, string[] line) in channels.Zip(lines.Skip(1)))
        {
            foreach (FigureDefinition definition in FigureDefinitions.OfChannel)
            {
                Figure? figure = ChannelTables.FigureOf(channel, definition.Key);
                double?[] parts = [figure?.Value, figure?.StandardUncertainty, figure?.Lower95, figure?.Upper95, figure?.AtLeast, figure?.AtMost];
                int column = Array.IndexOf(lines[0], definition.Key);
                Assert.Equal(parts, line.Skip(column).Take(parts.Length).Select(NumberOrNull));
            }
        }
    }

    [Fact]
    public void Csv_HostileStrings_AreNoFormulas()
    {
        SensorProfile profile = SampleProfiles.HostileStrings();
        profile = profile with { Lights = [new LightRatios("=1+1", new Dictionary<string, double> { ["Y"] = -0.5 })] };

        string csv = Encoding.UTF8.GetString(CsvTable.Of(PreviewTables.Lights(profile)));

        Assert.Equal("light,YEv\n'=1+1,-0.5\n", csv);
    }

    [Fact]
    public void Csv_EveryTable_HasAsManyFieldsInEachLine()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        foreach (ReportTable table in AllTables.Of(profile, ProfileReview.Of(profile)))
        {
            string[][] lines = Parse(Encoding.UTF8.GetString(CsvTable.Of(table)));
            Assert.Single(lines.Select(l => l.Length).Distinct());
            Assert.Equal(table.Rows.Count + 1, lines.Length);
            Assert.Equal(lines[0].Length, lines[0].Distinct().Count());
        }
    }

    private static void RequireSame(SensorProfile profile, string text)
    {
        IReadOnlyList<Printed> printed = PrintedFigures.In(text);
        Figure[] derived = [.. LevelTables.FixedPattern(profile.IsoProfiles).Rows.SelectMany(r => r).Select(c => c.Value).OfType<Figure>()];
        Figure[] known = [.. PrintedFigures.Of(profile), .. derived];
        Assert.All(printed, p => Assert.True(known.Any(f => PrintedFigures.Matches(p, f)), $"{p.Text} is no figure of the profile."));
        Figure[] owed = [.. PrintedFigures.Of(profile).Where(f => f.Value is not null)];
        Assert.NotEmpty(owed);
        Assert.All(owed, f => Assert.True(printed.Any(p => PrintedFigures.Matches(p, f)), $"{f.Value} ({f.Lower95} to {f.Upper95}) is printed nowhere."));
        foreach (double bound in PrintedFigures.Of(profile).Select(f => f.AtLeast ?? f.AtMost).OfType<double>())
        {
            // Stops below grey are printed as EV from grey, with the sign turned.
            Assert.Contains(Bound().Matches(text).Select(m => double.Parse(m.Groups[1].Value.Replace('−', '-'), CultureInfo.InvariantCulture)), p => Math.Abs(Math.Abs(p) - Math.Abs(bound)) <= 0.005 * Math.Max(1, Math.Abs(bound)));
        }
    }

    private static void RequireCell(Figure? figure, string cell)
    {
        if (figure is null)
        {
            Assert.Equal(TableCell.Nothing, cell);
        }
        else if (figure.Value is not null)
        {
            Assert.True(PrintedFigures.Matches(Assert.Single(PrintedFigures.In(cell)), figure), $"{cell} is not {figure.Value}.");
        }
        else
        {
            Assert.StartsWith(figure.AtLeast is not null ? "at least" : "at most", cell, StringComparison.Ordinal);
        }
    }

    private static string TextOf(string html) => WebUtility.HtmlDecode(Tag().Replace(html, " ")).Replace("  ", " ", StringComparison.Ordinal);

    private static double? NumberOrNull(string field) => field.Length == 0 ? null : double.Parse(field, CultureInfo.InvariantCulture);

    private static string[][] Parse(string csv)
    {
        using CsvReader reader = CsvReader.FromText(csv, new CsvReaderOptions { HasHeader = false });
        var lines = new List<string[]>();
        while (reader.Read())
        {
            lines.Add([.. Enumerable.Range(0, reader.FieldCount).Select(i => reader.GetString(i) ?? string.Empty)]);
        }

        return [.. lines];
    }

    [GeneratedRegex("<style>.*?</style>|<[^>]*>", RegexOptions.Singleline)]
    private static partial Regex Tag();

    [GeneratedRegex("<tr>.*?</tr>", RegexOptions.Singleline)]
    private static partial Regex Row();

    [GeneratedRegex("<td[^>]*>(.*?)</td>", RegexOptions.Singleline)]
    private static partial Regex Cell();

    [GeneratedRegex(@"at (?:least|most) ([−-]?\d+(?:\.\d+)?)")]
    private static partial Regex Bound();
}
