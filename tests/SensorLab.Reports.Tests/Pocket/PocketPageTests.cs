using System.Text;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Pocket;

public sealed class PocketPageTests(PageBrowser browser, PocketSheets sheets) : IClassFixture<PageBrowser>, IClassFixture<PocketSheets>
{
    // The product's own goals.
    private const long MostBytes = 300_000;
    private const double LeastContrast = 7;
    private const double SmallestTarget = 48;

    // Half a second's exposure at the dark end, 1/500 at the bright one, in thirds.
    private const string BrightReading = "-27";
    private const string DarkReading = "-3";

    public static TheoryData<string> States => PocketSheets.States;

    [Theory]
    [MemberData(nameof(States))]
    public async Task Page_AnyStateAndWindow_FitsAndIsQuiet(string state)
    {
        Assert.InRange(new FileInfo(sheets.PathOf(state)).Length, 1, MostBytes);
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf(state), 320, height: 568);
        await ReadAsync(page);
        foreach ((int width, int height) in new[] { (320, 568), (390, 844), (844, 390), (768, 1024), (1280, 800), (2560, 1300) })
        {
            await page.Page.SetViewportSizeAsync(width, height);

            Assert.InRange(await page.OverflowAsync(), int.MinValue, 0);
        }

        Assert.Empty(page.Complaints);
        Assert.Empty(page.Requests);
    }

    [Theory]
    [MemberData(nameof(States))]
    public async Task Page_AnyState_IsSoundForAScreenReader(string state)
    {
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf(state), 390);
        await ReadAsync(page);

        Assert.Empty(await page.StructureFaultsAsync());
        Assert.Equal("polite", await page.Page.Locator("#answer").GetAttributeAsync("aria-live"));
        string[] nameless = await page.Page.EvaluateAsync<string[]>(
            "() => [...document.querySelectorAll('button, select, input')].filter(e => e.checkVisibility() && !(e.getAttribute('aria-label') || e.labels?.length || e.textContent.trim())).map(e => e.outerHTML)");
        Assert.Empty(nameless);
    }

    [Theory]
    [InlineData(false, "auto")]
    [InlineData(true, "auto")]
    [InlineData(false, "dark")]
    [InlineData(true, "sun")]
    public async Task Page_AnyBrightness_HasContrastAndLargeTargets(bool isDark, string theme)
    {
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf("team"), 390, isDark);
        await page.Page.ClickAsync($"#themes button[value={theme}]");
        await ReadAsync(page);
        await page.Page.ClickAsync("#reading-0-own");

        double contrast = await page.Page.EvaluateAsync<double>(
            """
            () => {
              const parts = colour => colour.match(/[\d.]+/g).map(Number);
              const linear = c => c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4;
              const luminance = ([r, g, b]) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
              const ground = e => { for (let n = e; n; n = n.parentElement) { const c = parts(getComputedStyle(n).backgroundColor); if (c.length < 4 || c[3] > 0) return c; } return [255, 255, 255]; };
              const written = [...document.querySelectorAll('main *')].filter(e => e.checkVisibility() && [...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim()));
              return Math.min(...written.map(e => { const [a, b] = [luminance(parts(getComputedStyle(e).color)), luminance(ground(e))].sort((x, y) => y - x); return (a + 0.05) / (b + 0.05); }));
            }
            """);
        double smallest = await page.Page.EvaluateAsync<double>(
            "() => Math.min(...[...document.querySelectorAll('button, select, .choices label')].filter(e => e.checkVisibility()).flatMap(e => { const b = e.getBoundingClientRect(); return [b.width, b.height]; }))");

        Assert.InRange(contrast, LeastContrast, 21);
        Assert.InRange(smallest, SmallestTarget, double.MaxValue);
        bool isDarkNow = theme == "dark" || (theme == "auto" && isDark);
        Assert.Equal(isDarkNow ? "rgb(0, 0, 0)" : "rgb(255, 255, 255)", await page.Page.EvaluateAsync<string>("() => getComputedStyle(document.body).backgroundColor"));
    }

    // Above 3.20 (SampleSensor), so bright texture to 2.53: a reading of 1/500 (EV 9 + 6) at f/8 and ISO 100 may lie at +2⅓, seven thirds longer.
    [Fact]
    public async Task Page_KeyboardOnly_GivesTheExposureToSet()
    {
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf("one body"), 390);
        await page.Page.FocusAsync("#reading-0-up");
        await page.Page.Keyboard.PressAsync("Enter");
        for (int step = 0; step < 6; step++)
        {
            await page.Page.Keyboard.PressAsync("Space");
        }

        Assert.Equal("reading-0-up", await page.Page.EvaluateAsync<string>("() => document.activeElement.id"));
        Assert.Equal(BrightReading, await page.Page.Locator("#reading-0").InputValueAsync());
        Assert.Equal("1/100  f/8  ISO 100", await page.Page.Locator("#set").TextContentAsync());
        Assert.Contains("+2.3 EV: clean, 0.9 ±0.2 to the clip", await page.Page.Locator("#reading-0-verdict").InnerTextAsync(), StringComparison.Ordinal);

        await page.Page.FocusAsync("#more");
        await page.Page.Keyboard.PressAsync("Enter");
        Assert.Equal("1/80  f/8  ISO 100", await page.Page.Locator("#set").TextContentAsync());
        Assert.Contains("peaks may clip", await page.Page.Locator("#verdict").InnerTextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_EveryControl_IsReachedByTab()
    {
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf("team"), 390);
        await ReadAsync(page);
        string[] expected = await page.Page.EvaluateAsync<string[]>(
            "() => [...document.querySelectorAll('button, select, input:checked')].filter(e => e.checkVisibility()).map(e => e.id || e.value || e.textContent)");
        var reached = new HashSet<string>();
        for (int tab = 0; tab < (2 * expected.Length) + 20; tab++)
        {
            await page.Page.Keyboard.PressAsync("Tab");
            reached.Add(await page.Page.EvaluateAsync<string>("() => document.activeElement.id || document.activeElement.value || document.activeElement.textContent"));
        }

        Assert.Empty(expected.Except(reached));
    }

    [Fact]
    public async Task Page_InStops_SaysHowFarToMove()
    {
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf("one body"), 390);
        await page.Page.CheckAsync("#mode-1");
        await page.Page.SelectOptionAsync("#reading-0", "11");

        Assert.Equal("−1⅓ stops", await page.Page.Locator("#set").TextContentAsync());
    }

    [Fact]
    public async Task Page_Colleague_IsMarkedAndSaysWhatToDialIn()
    {
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf("team"), 390);
        await page.Page.SelectOptionAsync("#body", "1");
        string known = await page.Page.Locator("p.mark").First.InnerTextAsync();
        await page.Page.SelectOptionAsync("#body", "2");
        string unknown = await page.Page.Locator("p.mark").First.InnerTextAsync();

        Assert.Contains("Not the body in hand", known, StringComparison.Ordinal);
        Assert.Contains("Dial in +⅓ EV on its meter (exactly +0.41 ±0.3)", known, StringComparison.Ordinal);
        Assert.Contains("No serial number tells", unknown, StringComparison.Ordinal);
        Assert.Contains("Dial in −⅓ EV", unknown, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_SetByHand_StaysAtAdviceAgain()
    {
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf("one body"), 390);
        await ReadAsync(page);
        string? advised = await page.Page.Locator("#set").TextContentAsync();
        await page.Page.ClickAsync("#less");
        Assert.NotEqual(advised, await page.Page.Locator("#set").TextContentAsync());
        await page.Page.ClickAsync("#advised");

        Assert.Equal(advised, await page.Page.Locator("#set").TextContentAsync());
    }

    [Theory]
    [MemberData(nameof(States))]
    public async Task Page_WithoutScripts_IsATable(string state)
    {
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf(state), 320, hasScripts: false);

        Assert.False(await page.Page.Locator("#calculator").IsVisibleAsync());
        Assert.False(await page.Page.Locator("#themes").IsVisibleAsync());
        Assert.True(await page.Page.Locator("table[data-name=placement]").First.IsVisibleAsync());
        Assert.Contains("Sensor only", await page.Page.Locator("main").InnerTextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_HostileStrings_StayText()
    {
        string html = await File.ReadAllTextAsync(sheets.PathOf("hostile strings"), TestContext.Current.CancellationToken);
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf("hostile strings"), 390);
        await ReadAsync(page);

        Assert.Contains("<script>alert(", await page.Page.Locator("h1").InnerTextAsync(), StringComparison.Ordinal);
        Assert.Contains("<script>alert(", await page.Page.Locator("#warnings h3").First.InnerTextAsync(), StringComparison.Ordinal);
        Assert.DoesNotContain("<script>alert", html, StringComparison.Ordinal);
        Assert.DoesNotContain('\u202e', await page.Page.Locator("body").InnerTextAsync());
        Assert.Equal(2, await page.Page.Locator("script").CountAsync());
        Assert.Empty(page.Complaints);
    }

    [Fact]
    public void Html_SameProfiles_GiveTheSameBytes() =>
        Assert.Equal(PocketWriter.Html(PocketSheets.Profiles("team")), PocketWriter.Html(PocketSheets.Profiles("team")));

    [Fact]
    public void Html_Header_NamesBodyFirmwareModeDateAndCriterion()
    {
        string html = Encoding.UTF8.GetString(PocketWriter.Html(PocketSheets.Profiles("one body")));

        Assert.All(
            ["Larkmoor LM-2", "no. 20417", "firmware 1.1", "14 bit, lossless, mechanical shutter", "2026-04-18", "SNR 10"],
            part => Assert.Contains(part, html, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Page_Reloaded_KeepsWhatWasDialledIn()
    {
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf("team"), 390);
        await ReadAsync(page);
        await page.Page.SelectOptionAsync("#reading-2", "-15");
        await page.Page.ClickAsync("#guard-up");
        await page.Page.ClickAsync("#less");
        string? set = await page.Page.Locator("#set").TextContentAsync();

        await page.Page.ReloadAsync();

        Assert.Equal((BrightReading, DarkReading, "-15", "3"), (await ValueOf("#reading-0"), await ValueOf("#reading-1"), await ValueOf("#reading-2"), await ValueOf("#guard")));
        Assert.Equal(set, await page.Page.Locator("#set").TextContentAsync());
        Assert.Empty(page.Complaints);

        Task<string> ValueOf(string id) => page.Page.Locator(id).InputValueAsync();
    }

    [Theory]
    [InlineData("not JSON")]
    [InlineData("{\"body\": 9}")]
    [InlineData("{\"body\": 0, \"iso\": 0, \"light\": 0, \"exposure\": null, \"guard\": null, \"aperture\": 18, \"readings\": [null, 1]}")]
    public async Task Page_KeptStateThatIsOff_StartsAfresh(string kept)
    {
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf("one body"), 390);
        await page.Page.EvaluateAsync("kept => Object.keys(localStorage).filter(k => k !== 'sensorlab-pocket-theme').forEach(k => localStorage.setItem(k, kept))", kept);

        await page.Page.ReloadAsync();

        Assert.Equal(string.Empty, await page.Page.Locator("#reading-0").InputValueAsync());
        Assert.Empty(page.Complaints);
    }

    // Above 3.20: with the guard of ⅔ bright texture ends at 2.53, without at 3.20: two thirds more light.
    [Fact]
    public async Task Page_Guard_IsSetByTheUser()
    {
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf("one body"), 390);
        await page.Page.SelectOptionAsync("#reading-0", BrightReading);
        Assert.Equal("1/100  f/8  ISO 100", await page.Page.Locator("#set").TextContentAsync());

        await page.Page.SelectOptionAsync("#guard", "0");

        Assert.Equal("1/60  f/8  ISO 100", await page.Page.Locator("#set").TextContentAsync());
        Assert.Contains("No guard is left", await page.Page.Locator("#cautions").InnerTextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_AnyReading_NeverSaysByZeroStops()
    {
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf("one body"), 390);
        await page.Page.CheckAsync("#mode-1");
        await page.Page.SelectOptionAsync("#reading-0", "6");
        foreach (int dark in Enumerable.Range(-36, 40))
        {
            await page.Page.SelectOptionAsync("#reading-1", dark.ToString(System.Globalization.CultureInfo.InvariantCulture));
            string text = await page.Page.Locator("#calculator").InnerTextAsync();
            Assert.DoesNotMatch(@"\b0\.0 (±[\d.]+ )?(stops too long|below|over)", text);
        }
    }

    [Theory]
    [InlineData(320)]
    [InlineData(360)]
    public async Task Page_NameOfABody_DoesNotBreakAtItsHyphen(int width)
    {
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf("one body"), width);
        await page.Page.EvaluateAsync("() => { document.querySelector('h1').style.width = '5.2em'; }");

        int lines = await page.Page.EvaluateAsync<int>("() => document.querySelector('h1 .whole').getClientRects().length");

        Assert.Equal(1, lines);
        Assert.Contains("Onto the phone: ", await page.Page.Locator("#figures").InnerTextAsync(), StringComparison.Ordinal);
    }

    private static async Task ReadAsync(OpenPage page)
    {
        await page.Page.SelectOptionAsync("#reading-0", BrightReading);
        await page.Page.SelectOptionAsync("#reading-1", DarkReading);
        await page.Page.ClickAsync("#add");
    }
}
