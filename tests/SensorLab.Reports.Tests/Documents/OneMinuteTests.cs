using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using SensorLab.Profiles;
using SensorLab.Reports.Documents;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Tests.Samples;
using SensorLab.Retest;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Documents;

/// <summary>What a reader finds within a minute: on a phone, on paper, with only the page in hand.</summary>
public sealed class OneMinuteTests(PageBrowser browser) : IClassFixture<PageBrowser>, IDisposable
{
    // A phone of the smaller sort.
    private const int PhoneWidth = 360;
    private const int PhoneHeight = 780;
    private const int Screens = 2;

    private static readonly ChartFont Font = ChartFont.OfThisSystem();

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData(1, false)]
    [InlineData(3, false)]
    [InlineData(8, false)]
    [InlineData(20, false)]
    [InlineData(1, true)]
    [InlineData(3, true)]
    [InlineData(8, true)]
    [InlineData(20, true)]
    public async Task Report_OnAPhone_AnswersWithinTwoScreensWithoutSidewaysScrolling(int isos, bool isFlawed)
    {
        SensorProfile profile = OfIsos(isos, isFlawed);
        await using OpenPage page = await OpenAsync(Page(profile), PhoneWidth, PhoneHeight);

        Assert.InRange(await page.OverflowAsync(), int.MinValue, 0);
        string verdict = await page.Page.Locator(".answers").InnerTextAsync();
        Assert.Contains(isFlawed ? "in doubt" : "stand", verdict, StringComparison.Ordinal);
        Assert.Contains("EV", await page.Page.Locator("#chart-latitude-ruler > p").InnerTextAsync(), StringComparison.Ordinal);
        foreach (IsoProfile iso in profile.IsoProfiles)
        {
            double above = iso.Latitude.AboveEv!.Value!.Value;
            ILocator figure = page.Page.Locator("#chart-latitude-ruler .narrow text", new PageLocatorOptions { HasTextRegex = new Regex($"to \\+{Regex.Escape(above.ToString("0.00", CultureInfo.InvariantCulture))} ±") }).First;
            LocatorBoundingBoxResult box = (await figure.BoundingBoxAsync())!;
            Assert.InRange(box.Y + box.Height, 0, Screens * PhoneHeight);
            Assert.InRange(box.X, 0, PhoneWidth);
            Assert.InRange(box.X + box.Width, 0, PhoneWidth);
        }
    }

    [Theory]
    [InlineData(360)]
    [InlineData(390)]
    public async Task Report_OnAPhone_NoChartAndNoTableLiesToTheSide(int width)
    {
        await using OpenPage page = await OpenAsync(Page(SampleProfiles.ThreeIsos()), width, PhoneHeight);
        await page.Page.EvaluateAsync("() => document.querySelectorAll('details').forEach(d => d.open = true)");

        string[] wide = await page.Page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll('svg, table, .scroll, figure, td, th[scope=row]')].filter(e => e.checkVisibility())
              .filter(e => { const b = e.getBoundingClientRect(); return b.right > document.documentElement.clientWidth + 0.5 || b.left < -0.5 || (e.classList.contains('scroll') && e.scrollWidth > e.clientWidth); })
              .map(e => e.tagName + ' ' + (e.closest('[id]')?.id ?? '') + ' ' + e.textContent.slice(0, 40))
            """);
        int charts = await page.Page.EvaluateAsync<int>("() => [...document.querySelectorAll('figure')].filter(f => [...f.querySelectorAll('svg')].filter(s => s.checkVisibility()).length !== 1).length");

        Assert.Empty(wide);
        Assert.Equal(0, charts);
    }

    [Fact]
    public async Task Report_DeepOnAPhone_StillNamesSectionAndIso()
    {
        await using OpenPage page = await OpenAsync(Page(SampleProfiles.ThreeIsos()), PhoneWidth, PhoneHeight);
        await page.Page.EvaluateAsync("() => document.getElementById('chart-response-iso-1600').scrollIntoView()");
        await page.Page.EvaluateAsync("() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))");

        LocatorBoundingBoxResult box = (await page.Page.Locator("#iso-1600-title").BoundingBoxAsync())!;

        Assert.Equal("The evidence at ISO 1600", await page.Page.Locator("#iso-1600-title").InnerTextAsync());
        Assert.InRange(box.Y, 0, 80);
    }

    [Fact]
    public async Task Report_EveryFigure_ReachesItsWordsByALink()
    {
        await using OpenPage page = await OpenAsync(Page(SampleProfiles.ThreeIsos()), 1280, PhoneHeight);

        string[] without = await page.Page.EvaluateAsync<string[]>(
            "() => [...document.querySelectorAll('table[data-name^=channels] tbody th, table[data-name=latitude-brief] thead th, figure:has(table) figcaption')].filter(e => !['ISO', 'Does it stand?'].includes(e.textContent) && ![...e.querySelectorAll('a')].some(a => document.getElementById(a.hash.slice(1))?.closest('.glossary'))).map(e => e.textContent)");

        Assert.Empty(without);
        string[] twice = await page.Page.EvaluateAsync<string[]>("() => { const terms = [...document.querySelectorAll('.glossary dt')].map(d => d.textContent); return terms.filter((t, i) => terms.indexOf(t) !== i); }");
        Assert.Empty(twice);
    }

    // Task 1: may the wall go to +2⅔ at ISO 400? The sample clips at 3.20, bright texture ends at 2.53.
    [Fact]
    public async Task Task_MayTheWallGoThere_IsToldByThePocketSheetsRow()
    {
        await using OpenPage page = await OpenAsync(PocketWriter.Html([SampleProfiles.ThreeIsos()]), PhoneWidth, PhoneHeight);

        ILocator row = page.Page.Locator("table[data-name=placement] tr", new PageLocatorOptions { HasTextRegex = new Regex("^\\s*400") });

        Assert.Equal("+2.53 ±0.19", await row.Locator("td[data-label='Bright texture up to']").InnerTextAsync());
        Assert.Equal("+2⅓", await row.Locator("td[data-label='In thirds']").InnerTextAsync());
    }

    // Tasks 2 and 3: which ISO is in doubt and why; what to shoot again.
    [Fact]
    public async Task Task_WhatIsInDoubtAndWhatToShootAgain_IsToldOnTheFirstScreen()
    {
        await using OpenPage page = await OpenAsync(Page(SampleProfiles.ThreeIsos()), PhoneWidth, PhoneHeight);
        ILocator doubt = page.Page.Locator(".answers p").First;
        ILocator again = page.Page.Locator(".answers li");

        Assert.Contains("ISO 100 is in doubt (light-drift)", await doubt.InnerTextAsync(), StringComparison.Ordinal);
        Assert.Equal(["ISO 3200: the metered frames (metered-missing).", "ISO 100: the bracket, under a steady light (light-drift)."], await again.AllInnerTextsAsync());
        foreach (ILocator answer in new[] { doubt, again.Last })
        {
            LocatorBoundingBoxResult box = (await answer.BoundingBoxAsync())!;
            Assert.InRange(box.Y + box.Height, 0, PhoneHeight);
        }

        string[] brief = [.. await page.Page.Locator("ul.brief li").AllInnerTextsAsync()];
        Assert.InRange(brief.Length, 1, 5);
        Assert.StartsWith("refused: metered-missing, ISO 3200: no metered frames, so no middle grey", brief[0], StringComparison.Ordinal);
    }

    // Task 4: what the preview hides. The sample's vivid look clips at 1.6, the raw file at 3.20.
    [Fact]
    public async Task Task_WhatThePreviewHides_IsToldByItsRow()
    {
        await using OpenPage page = await OpenAsync(Page(SampleProfiles.ThreeIsos()), PhoneWidth, PhoneHeight);

        ILocator row = page.Page.Locator("table[data-name=previews-iso-400] tr", new PageLocatorOptions { HasTextRegex = new Regex("^\\s*vivid") });

        Assert.StartsWith("1.60 ±", await row.Locator("td[data-label='Hidden headroom']").TextContentAsync(), StringComparison.Ordinal);
    }

    // Task 5: does the second body match?
    [Theory]
    [InlineData(0, "Equivalent: every figure judged lies within its margin.")]
    [InlineData(0.4, "Changed: some figures differ by more than matters.")]
    public async Task Task_DoesTheSecondBodyMatch_IsTheRetestsFirstSentence(double moreEv, string expected)
    {
        SensorProfile first = SampleProfiles.ThreeIsos();
        SensorProfile second = first with
        {
            Body = first.Body with { SerialNumber = "20433" },
            IsoProfiles = [.. first.IsoProfiles.Select(iso => iso with { Latitude = iso.Latitude with { AboveEv = SampleProfiles.Measured(SampleSensor.AboveEv + moreEv, 0.004, 410) } })],
        };
        RetestResult result = ProfileComparison.Of(first, second, [first with { Body = first.Body }, first, first], RetestMargins.Default);
        await using OpenPage page = await OpenAsync(RetestReportWriter.Files(result, TestContext.Current.CancellationToken)[0].Bytes.ToArray(), PhoneWidth, PhoneHeight);

        ILocator verdict = page.Page.Locator("main > p").First;

        Assert.Equal(expected, await verdict.InnerTextAsync());
        Assert.InRange((await verdict.BoundingBoxAsync())!.Y, 0, PhoneHeight / 2);
        Assert.InRange(await page.OverflowAsync(), int.MinValue, 0);
        Assert.Empty(await page.StructureFaultsAsync());
        string[] verdicts = await page.Page.EvaluateAsync<string[]>(
            "() => [...document.querySelectorAll('.narrow text')].filter(t => t.checkVisibility() && ['equivalent', 'changed', 'undecided'].includes(t.textContent)).filter(t => { const b = t.getBoundingClientRect(); return b.right <= innerWidth && b.left >= 0; }).map(t => t.textContent)");
        Assert.NotEmpty(verdicts);
    }

    [Theory]
    [InlineData(1, false, 4)]
    [InlineData(3, false, 4)]
    [InlineData(3, true, 4)]
    [InlineData(8, true, 10)]
    [InlineData(20, false, 10)]
    [InlineData(20, true, 10)]
    public void Paper_AnyProfile_AnswersInAFewPagesAndKeepsTheRestInTheAppendix(int isos, bool isFlawed, int most)
    {
        ReportDocument report = ReportPages.Report(OfIsos(isos, isFlawed));

        Assert.InRange(PagesOf(PdfReport.Of(report, Font, TestContext.Current.CancellationToken)), 1, most);
        Assert.InRange(PagesOf(PdfReport.Appendix(report, Font, TestContext.Current.CancellationToken)), 2 * isos, int.MaxValue);
    }

    [Fact]
    public async Task Paper_Headings_StandAboveWhatTheyAreOfAndNamesAreWhole()
    {
        const string Reader = "/usr/bin/pdftotext";
        Assert.SkipUnless(File.Exists(Reader), "There is no pdftotext: bash src/install.sh --tests installs it.");
        SensorProfile profile = OfIsos(8, isFlawed: true) with
        {
            Frames = [.. Enumerable.Range(1, 200).Select(i => new FrameRecord { File = $"bracket/second-evening/P{i:0000}.dng", Sha256 = new string('a', 64), Role = "bracket", Iso = 400, ExposureSeconds = 0.01, Used = true })],
        };
        ReportDocument report = ReportPages.Report(profile);
        foreach (byte[] document in new[] { PdfReport.Of(report, Font, TestContext.Current.CancellationToken), PdfReport.Appendix(report, Font, TestContext.Current.CancellationToken) })
        {
            string path = _folder.File("report.pdf");
            await File.WriteAllBytesAsync(path, document, TestContext.Current.CancellationToken);
            using Process reader = Process.Start(new ProcessStartInfo(Reader, ["-layout", path, "-"]) { RedirectStandardOutput = true, StandardOutputEncoding = Encoding.UTF8 })!;
            string text = await reader.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);

            string[] headings = [.. report.Sections.Select(s => s.Title), .. report.Sections.SelectMany(s => s.Blocks).OfType<ChartBlock>().Select(c => c.Drawing.Heading.Title), .. report.Sections.SelectMany(s => s.Blocks).OfType<HeadingBlock>().Select(h => h.Words)];
            foreach (string page in text.Split('\f').Where(p => p.Length > 0))
            {
                // The last line is the foot with the page's number.
                string[] lines = [.. page.Split('\n').Select(l => l.Trim()).Where(l => l.Length > 0)];
                Assert.DoesNotContain(lines[^Math.Min(2, lines.Length)], headings);
            }

            if (text.Contains("SHA-256", StringComparison.Ordinal))
            {
                Assert.All(Enumerable.Range(1, 200), i => Assert.Contains($"P{i:0000}.dng", text, StringComparison.Ordinal));
            }
        }
    }

    private static int PagesOf(byte[] pdf) => Regex.Count(Encoding.Latin1.GetString(pdf), @"/Type\s*/Page\b(?!s)");

    private static byte[] Page(SensorProfile profile) => HtmlReport.Of(ReportPages.Report(profile));

    private static SensorProfile OfIsos(int count, bool isFlawed)
    {
        SensorProfile profile = SampleProfile.Of([.. Enumerable.Range(0, count).Select(i => VirtualBody.AtIso((int)Math.Round(100 * Math.Pow(2, i / 2.0) / 10) * 10))]);
        string[] codes = [FindingCode.LightFlicker, FindingCode.TargetTextured, FindingCode.MeteredDoubtful, FindingCode.DarkLit, FindingCode.ModelRejected, FindingCode.RawFiltered];
        return !isFlawed ? profile : profile with
        {
            Findings =
            [
                .. from code in codes
                   from iso in profile.IsoProfiles
                   select new Finding { Code = code, Severity = FindingSeverity.Warning, Iso = iso.Iso, Size = 0.03, SizeUnit = "relative", Frames = [$"bracket/P{iso.Iso:0000}.dng"], Message = $"At ISO {iso.Iso} something is the matter by 3 %.", Remedy = "Shoot it again." },
                new Finding { Code = FindingCode.GainSwitch, Severity = FindingSeverity.Note, Iso = profile.IsoProfiles[0].Iso, Message = "A note.", Remedy = "None." },
            ],
        };
    }

    private async Task<OpenPage> OpenAsync(byte[] page, int width, int height)
    {
        string path = _folder.File("page.html");
        await File.WriteAllBytesAsync(path, page, TestContext.Current.CancellationToken);
        return await browser.OpenAsync(path, width, height: height);
    }
}
