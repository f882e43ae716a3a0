using Microsoft.Playwright;
using SensorLab.Reports.Tests.Samples;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Documents;

public sealed class HtmlReportBrowserTests(PageBrowser browser, ReportPages pages) : IClassFixture<PageBrowser>, IClassFixture<ReportPages>
{
    // The product's own goals for twenty ISOs.
    private const double MostMilliseconds = 1000;
    private const long MostBytes = 5_000_000;

    public static TheoryData<string> States { get; } = [.. SampleStates.All.Select(row => row.Data), "full", "full monochrome", "full bounds", "hostile strings"];

    [Theory]
    [InlineData(360)]
    [InlineData(768)]
    [InlineData(1280)]
    [InlineData(2560)]
    public async Task Page_AnyWidthLightAndDark_FitsAndIsQuiet(int width)
    {
        foreach (bool isDark in new[] { false, true })
        {
            await using OpenPage page = await browser.OpenAsync(pages.PathOf("full"), width, isDark);

            Assert.InRange(await page.OverflowAsync(), int.MinValue, 0);
            Assert.Empty(page.Complaints);
            Assert.Empty(page.Requests);
        }
    }

    [Theory]
    [MemberData(nameof(States))]
    public async Task Page_AnyState_IsSoundOnAPhone(string state)
    {
        await using OpenPage page = await browser.OpenAsync(pages.PathOf(state), 360);

        Assert.Empty(await page.StructureFaultsAsync());
        Assert.InRange(await page.OverflowAsync(), int.MinValue, 0);
        Assert.Empty(page.Complaints);
        Assert.Empty(page.Requests);
        Assert.Equal(0, await page.Page.Locator("script").CountAsync());
    }

    [Fact]
    public async Task Page_Keyboard_OpensATableOnDemand()
    {
        await using OpenPage page = await browser.OpenAsync(pages.PathOf("full"), 1280);
        ILocator details = page.Page.Locator("details").First;

        await details.Locator("summary").FocusAsync();
        await page.Page.Keyboard.PressAsync("Enter");

        Assert.True(await details.EvaluateAsync<bool>("d => d.open && d.querySelector('table').checkVisibility()"));
    }

    [Fact]
    public async Task Page_ScrolledToItsEnd_StillShowsBothAnswers()
    {
        await using OpenPage page = await browser.OpenAsync(pages.PathOf("full"), 1280);

        await page.Page.EvaluateAsync("() => window.scrollTo(0, document.body.scrollHeight)");

        ILocator verdict = page.Page.Locator("nav .verdict");
        Assert.Equal("Use it? Yes Shoot again? 2 things", await verdict.InnerTextAsync());
        Assert.InRange((await verdict.BoundingBoxAsync())!.Y, 0, 100);
    }

    [Fact]
    public async Task Page_Printed_HidesWhatOnlyAScreenNeedsAndFitsThePaper()
    {
        // A4 less its margins at 96 pixels an inch.
        const int PaperWidth = 680;
        await using OpenPage page = await browser.OpenAsync(pages.PathOf("full"), PaperWidth, isDark: true);

        await page.Page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });

        Assert.False(await page.Page.Locator("nav").IsVisibleAsync());
        Assert.InRange(await page.OverflowAsync(), int.MinValue, 0);
        Assert.Equal("rgb(255, 255, 255)", await page.Page.EvaluateAsync<string>("() => getComputedStyle(document.body).backgroundColor"));
        Assert.Equal("rgb(255, 255, 255)", await page.Page.EvaluateAsync<string>("() => getComputedStyle(document.querySelector('svg rect')).fill"));
    }

    [Fact]
    public async Task Page_Dark_DrawsItsChartsInTheDarkColours()
    {
        await using OpenPage page = await browser.OpenAsync(pages.PathOf("full"), 1280, isDark: true);

        Assert.Equal("rgb(21, 24, 27)", await page.Page.EvaluateAsync<string>("() => getComputedStyle(document.querySelector('svg rect')).fill"));
    }

    [Fact]
    public async Task Page_TwentyIsos_IsSmallAndThereAtOnce()
    {
        string path = pages.PathOf("twenty ISOs");
        Assert.InRange(new FileInfo(path).Length, 1, MostBytes);
        await using OpenPage page = await browser.OpenAsync(path, 1280);
        double taken = await page.LoadMillisecondsAsync();

        // More than nothing: a browser that does not tell would pass any limit.
        Assert.InRange(taken, 1, MostMilliseconds);
    }
}
