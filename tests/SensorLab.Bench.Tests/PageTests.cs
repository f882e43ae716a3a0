using Microsoft.Playwright;
using SensorLab.Simulation.Rehearsals;
using SensorLab.TestData;

namespace SensorLab.Bench.Tests;

/// <summary>The page in a browser, in each of its states.</summary>
public sealed class PageTests(RehearsedEvening evening, PageBrowser browser) : IClassFixture<RehearsedEvening>, IClassFixture<PageBrowser>
{
    /// <summary>What is read from two metres.</summary>
    private const double FarContrast = 7;

    private static readonly string[] Far = [".verdict .mark", ".verdict .what", ".verdict .remedy", ".dial dt", ".dial dd", ".role", ".actions li", ".counts p", ".counts b", ".next .all", ".next .note"];

    [Theory]
    [InlineData(360, false)]
    [InlineData(360, true)]
    [InlineData(768, false)]
    [InlineData(1280, true)]
    [InlineData(1280, false)]
    [InlineData(2560, false)]
    public async Task Page_InEveryState_FitsReadsAndComplainsOfNothing(int width, bool isDark)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        await using OpenPage page = await OpenAsync(bench, width, isDark);

        await page.Page.WaitForSelectorAsync("#preview .sum");
        await JudgeAsync(page, "begin", width, isDark);

        await bench.OpenAsync(evening.PlanDocument);
        ShootUpTo(bench, evening.Frames.Count / 2);
        await bench.UntilAsync(s => s.Frames.Assigned == evening.Frames.Count / 2 && s.Charts.Count > 0, "half the evening is measured");
        await page.Page.WaitForSelectorAsync("#pictures:not([hidden])");
        await JudgeAsync(page, "good", width, isDark);

        PlannedFrame next = evening.Frames[evening.Frames.Count / 2];
        evening.Shoot(bench.Card, RehearsedEvening.Saying(next, iso: 200), evening.Frames.Count / 2);
        await page.Page.WaitForSelectorAsync(".verdict[data-kind=again]");
        await JudgeAsync(page, "again", width, isDark);

        await bench.FinishAsync();
        await bench.UntilAsync(s => s.Phase == "done", "the set is finished");
        await page.Page.WaitForSelectorAsync(".links");
        await JudgeAsync(page, "done", width, isDark);
        Assert.Empty(page.Complaints);
        Assert.All(page.Requests, url => Assert.StartsWith(bench.Server.Root, url, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Evening_ByKeyboardAlone_BeginsAndFinishes()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        await using OpenPage page = await OpenAsync(bench, 1280, isDark: false);
        IKeyboard keys = page.Page.Keyboard;
        await page.Page.WaitForSelectorAsync("#preview .sum");

        await TabToAsync(page, "#folder");
        await keys.TypeAsync(bench.Card);
        await TabToAsync(page, "#isos");
        await keys.TypeAsync("100, 800");
        await TabToAsync(page, "#form button.main");
        await keys.PressAsync("Enter");
        await page.Page.WaitForSelectorAsync("#stage:not([hidden])");
        ShootUpTo(bench, evening.Frames.Count);
        await bench.UntilAsync(s => s.Frames.Assigned == evening.Frames.Count, "the evening is told");
        await page.Page.WaitForSelectorAsync("[data-key=characterise]");
        await TabToAsync(page, "[data-key=characterise]");
        await keys.PressAsync("Enter");
        await bench.UntilAsync(s => s.Phase == "done", "the set is finished");
        await page.Page.WaitForSelectorAsync(".links");

        Assert.Equal("done", (await bench.StateAsync()).Phase);
        Assert.Empty(page.Complaints);
    }

    [Fact]
    public async Task Chooser_ShowsFoldersOfThisMachineAndTakesOne()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        Directory.CreateDirectory(Path.Combine(bench.Card, "<b>bold & more"));
        await using OpenPage page = await OpenAsync(bench, 768, isDark: false);
        await page.Page.FillAsync("#folder", bench.Card);
        await page.Page.ClickAsync("#browse");
        await page.Page.ClickAsync("#chooserList .folder");
        await page.Page.WaitForFunctionAsync("() => document.getElementById('chooserPath').textContent.includes('more –')");
        await page.Page.ClickAsync("#chooserTake");

        Assert.Equal(Path.Combine(bench.Card, "<b>bold & more"), await page.Page.InputValueAsync("#folder"));
        Assert.Empty(page.Complaints);
    }

    [Fact]
    public async Task Sound_SwitchedOn_IsPlayedOfAFrame()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        await using OpenPage page = await OpenAsync(bench, 768, isDark: false);
        await page.Page.EvaluateAsync("() => { window.notes = []; const start = OscillatorNode.prototype.start; OscillatorNode.prototype.start = function (at) { window.notes.push(this.frequency.value); return start.call(this, at); }; }");
        await page.Page.ClickAsync("#sound");
        await page.Page.WaitForFunctionAsync("() => window.notes.length === 1");
        await bench.OpenAsync(evening.PlanDocument);
        evening.Shoot(bench.Card, 0);
        await page.Page.WaitForFunctionAsync("() => window.notes.length === 2");
        evening.Shoot(bench.Card, RehearsedEvening.Saying(evening.Frames[1], iso: 3200), 1);
        await page.Page.WaitForFunctionAsync("() => window.notes.length === 5");

        Assert.Equal("true", await page.Page.GetAttributeAsync("#sound", "aria-pressed"));
    }

    private async Task<OpenPage> OpenAsync(RunningBench bench, int width, bool isDark) => await browser.OpenAsync(bench.Server.Address, width, isDark);

    private void ShootUpTo(RunningBench bench, int count)
    {
        for (int i = 0; i < count; i++)
        {
            evening.Shoot(bench.Card, i);
        }
    }

    private static async Task TabToAsync(OpenPage page, string selector)
    {
        for (int i = 0; i < 80; i++)
        {
            await page.Page.Keyboard.PressAsync("Tab");
            if (await page.Page.EvaluateAsync<bool>("selector => document.activeElement?.matches(selector) === true", selector))
            {
                return;
            }
        }

        Assert.Fail($"{selector} is not reached by Tab.");
    }

    private static async Task JudgeAsync(OpenPage page, string state, int width, bool isDark)
    {
        if (Environment.GetEnvironmentVariable("SENSORLAB_SCREENSHOTS") is { Length: > 0 } folder)
        {
            await page.Page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, $"{state}-{width}{(isDark ? "-dark" : string.Empty)}.png"), FullPage = true });
            await page.Page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, $"{state}-{width}-top.png"), Clip = new Clip { Width = width, Height = 822 } });
        }

        Assert.InRange(await page.OverflowAsync(), int.MinValue, 0);
        Assert.Empty(await page.StructureFaultsAsync());
        Assert.Empty(await ContrastFaultsAsync(page));
        Assert.Empty(await AxeFaultsAsync(page));
    }

    // WCAG 2.2's relative luminance, over the page's own colours.
    private static Task<string[]> ContrastFaultsAsync(OpenPage page) => page.Page.EvaluateAsync<string[]>(
        """
        ([selectors, least]) => {
          const part = v => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; };
          const luminance = ([r, g, b]) => 0.2126 * part(r) + 0.7152 * part(g) + 0.0722 * part(b);
          const numbers = colour => colour.match(/[\d.]+/g).map(Number);
          const behind = e => { for (; e; e = e.parentElement) { const c = numbers(getComputedStyle(e).backgroundColor); if (c.length < 4 || c[3] > 0) return c; } return [255, 255, 255]; };
          return selectors.flatMap(s => [...document.querySelectorAll(s)].filter(e => e.checkVisibility()).map(e => {
            const [a, b] = [luminance(numbers(getComputedStyle(e).color)), luminance(behind(e))].sort((x, y) => y - x);
            const ratio = (a + 0.05) / (b + 0.05);
            return ratio < least ? `${s}: ${ratio.toFixed(2)}` : null;
          })).filter(Boolean);
        }
        """,
        new object[] { Far, FarContrast });

    private static async Task<string[]> AxeFaultsAsync(OpenPage page)
    {
        string axe = Path.Combine(Repository.Root, "tests", "OtherTools", "node_modules", "axe-core", "axe.min.js");
        Assert.True(File.Exists(axe), "axe-core is missing: npm ci --ignore-scripts in tests/OtherTools installs it, as tests/run.sh does.");
        ICDPSession session = await page.Page.Context.NewCDPSessionAsync(page.Page);
        await session.SendAsync("Page.setBypassCSP", new Dictionary<string, object> { ["enabled"] = true });
        await page.Page.EvaluateAsync(await File.ReadAllTextAsync(axe, TestContext.Current.CancellationToken));
        return await page.Page.EvaluateAsync<string[]>("async () => (await axe.run(document)).violations.map(v => `${v.id}: ${v.nodes.map(n => n.target.join(' ')).join(', ')}`)");
    }
}
