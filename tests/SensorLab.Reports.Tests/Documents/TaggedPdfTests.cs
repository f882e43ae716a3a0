using System.Diagnostics;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;
using SensorLab.Profiles;
using SensorLab.Reports.Documents;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Plans;
using SensorLab.Reports.Targets;
using SensorLab.Reports.Tests.Plans;

namespace SensorLab.Reports.Tests.Documents;

/// <summary>What a reader that speaks is told of our documents.</summary>
public sealed partial class TaggedPdfTests
{
    private const string Reader = "/usr/bin/pdfinfo";
    private static readonly ChartFont Font = ChartFont.OfThisSystem();

    public static TheoryData<string> Kinds => ["report", "appendix", "pocket", "plan", "sheet"];

    // The reader takes minutes over the appendix's thousands of cells.
    [Theory]
    [InlineData("report")]
    [InlineData("pocket")]
    [InlineData("plan")]
    [InlineData("sheet")]
    public async Task Document_AnyKind_IsToldInReadingOrderWithItsTables(string kind)
    {
        Assert.SkipUnless(File.Exists(Reader), $"There is no {Reader}: bash src/install.sh --tests installs it.");

        string told = await ToldAsync(Document(kind));

        string[] expected = kind switch
        {
            "report" => ["H1", "\"Larkmoor LM-2\"", "H3", "\"Can I use it?\"", "\"What should I shoot again?\"", "Figure", "Table", "Caption", "TR", "TH", "\"Bright end (EV from grey)\"", "TD", "\"400\""],
            "pocket" => ["H1", "\"Larkmoor LM-2\"", "H2", "Table", "TH", "\"ISO\"", "TD", "\"100\"", "H2", "\"How to use it\"", "L", "LI", "LBody"],
            "plan" => ["H1", "H3", "L", "LI", "LBody", "Table", "TH", "\"Time\"", "TD", "\"1\""],
            _ => ["P", GreySheetWords.Heading],
        };
        int at = 0;
        Assert.All(expected, word =>
        {
            int found = told.IndexOf(word, at, StringComparison.Ordinal);
            Assert.True(found >= 0, $"{word} is not told, or before what it follows:\n{told[at..Math.Min(told.Length, at + 500)]}");
            at = found + word.Length;
        });
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Document_AnyKind_NamesEveryPartOnceAndFindsItAgain(string kind)
    {
        string[] streams = [.. Streams(Document(kind))];
        string structure = string.Concat(streams.Where(s => s.Contains("/StructTreeRoot", StringComparison.Ordinal)));
        string[] pages = [.. streams.Where(s => s.Contains(" BDC\n", StringComparison.Ordinal) || s.Contains(" BMC\n", StringComparison.Ordinal))];
        string[] parents = [.. ParentForm().Matches(structure).Select(m => m.Groups[1].Value)];

        Assert.NotEmpty(pages);
        Assert.Equal(pages.Length, parents.Length);
        Assert.All(pages.Zip(parents), page =>
        {
            int[] identifiers = [.. IdentifierForm().Matches(page.First).Select(m => int.Parse(m.Groups[1].ValueSpan, provider: null))];
            Assert.Equal(Enumerable.Range(0, identifiers.Length), identifiers);
            Assert.Equal(identifiers.Length, page.Second.Split(" R", StringSplitOptions.RemoveEmptyEntries).Length);
            Assert.Equal(OpenForm().Count(page.First), CloseForm().Count(page.First));
            Assert.DoesNotContain(".0625 .03125 re", page.First, StringComparison.Ordinal);
        });
        Assert.Equal(kind is "report" or "appendix", FigureForm().IsMatch(structure));
        Assert.All(FigureForm().Matches(structure), figure => Assert.Contains("/Alt <FEFF", figure.Value, StringComparison.Ordinal));
    }

    private static byte[] Document(string kind)
    {
        SensorProfile profile = ReportPages.Profile("three ISOs");
        CancellationToken cancellation = TestContext.Current.CancellationToken;
        return kind switch
        {
            "report" => PdfReport.Of(ReportPages.Report(profile), Font, cancellation),
            "appendix" => PdfReport.Appendix(ReportPages.Report(profile), Font, cancellation),
            "pocket" => PocketWriter.Pdf([profile], cancellation),
            "plan" => PlanSheet.Of(PlanPages.Plan("evening"), Font),
            _ => GreySheet.ToPdf(PaperSize.A4),
        };
    }

    private static async Task<string> ToldAsync(byte[] pdf)
    {
        string path = Path.Combine(Path.GetTempPath(), $"sensorlab-{Guid.NewGuid():N}.pdf");
        try
        {
            await File.WriteAllBytesAsync(path, pdf, TestContext.Current.CancellationToken);
            using Process reader = Process.Start(new ProcessStartInfo(Reader, ["-struct-text", path]) { RedirectStandardOutput = true, StandardOutputEncoding = Encoding.UTF8 })!;
            return await reader.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        }
        finally
        {
            File.Delete(path);
        }
    }

    // Fonts and pictures are none of text: only streams that our own code or Skia's pages hold are looked at.
    private static IEnumerable<string> Streams(byte[] pdf)
    {
        string text = Encoding.Latin1.GetString(pdf);
        foreach (Match stream in StreamForm().Matches(text))
        {
            int length = int.Parse(stream.Groups[1].ValueSpan, provider: null);
            using var inflate = new ZLibStream(new MemoryStream(pdf, stream.Index + stream.Length, length), CompressionMode.Decompress);
            using var plain = new MemoryStream();
            inflate.CopyTo(plain);
            yield return Encoding.Latin1.GetString(plain.ToArray());
        }
    }

    [GeneratedRegex(@"<<(?:/Type /ObjStm [^>]*)?/Filter /FlateDecode /Length ([0-9]+)>> stream\n")]
    private static partial Regex StreamForm();

    [GeneratedRegex(@"^(?:.*<</Nums \[)?[0-9]+ \[([^\]]*)\]$", RegexOptions.Multiline)]
    private static partial Regex ParentForm();

    [GeneratedRegex(@"<</MCID ([0-9]+)>> BDC\n")]
    private static partial Regex IdentifierForm();

    [GeneratedRegex(@"(?:BDC|BMC)\n")]
    private static partial Regex OpenForm();

    [GeneratedRegex(@"EMC\n")]
    private static partial Regex CloseForm();

    [GeneratedRegex(@"<</S /Figure [^\n]*")]
    private static partial Regex FigureForm();
}
