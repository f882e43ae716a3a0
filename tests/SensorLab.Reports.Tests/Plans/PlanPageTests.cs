using SensorLab.Planning.Plans;
using SensorLab.Planning.Protocols;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Plans;

public sealed class PlanPageTests(PageBrowser browser, PlanPages pages) : IClassFixture<PageBrowser>, IClassFixture<PlanPages>
{
    private const int PhoneWidth = 390;

    // What a thumb hits: the common advice of 44 pixels, and a little.
    private const double SmallestTarget = 48;

    public static TheoryData<string> Protocols => [.. ProtocolLibrary.Names];

    [Theory]
    [MemberData(nameof(Protocols))]
    public async Task Page_AnyProtocol_IsSoundOnAPhoneInBothModes(string name)
    {
        foreach (bool isDark in new[] { false, true })
        {
            await using OpenPage page = await browser.OpenAsync(pages.File(name, "plan.html"), 360, isDark);

            Assert.Empty(await page.StructureFaultsAsync());
            Assert.InRange(await page.OverflowAsync(), int.MinValue, 0);
            Assert.Empty(page.Complaints);
            Assert.Empty(page.Requests);
        }
    }

    [Fact]
    public async Task Page_WithoutNetwork_TicksOffAndKeepsItsTicksAcrossAReload()
    {
        ShotPlan plan = PlanPages.Plan("evening");
        await using OpenPage page = await browser.OpenAsync(pages.File("evening", "plan.html"), PhoneWidth);
        await page.Page.Context.SetOfflineAsync(true);

        await page.Page.Locator("label:has(#s1)").ClickAsync();
        await page.Page.Locator("label:has(#s2)").ClickAsync();
        string told = await page.Page.Locator("#done").InnerTextAsync();
        await page.Page.ReloadAsync();

        Assert.Equal($"{plan.Steps[0].Frames + plan.Steps[1].Frames} of {plan.Summary.Frames} frames", told);
        Assert.Equal(told, await page.Page.Locator("#done").InnerTextAsync());
        Assert.True(await page.Page.Locator("#s1").IsCheckedAsync());
        Assert.True(await page.Page.Locator("#s2").IsCheckedAsync());
        Assert.False(await page.Page.Locator("#s3").IsCheckedAsync());
        Assert.Empty(page.Complaints);
    }

    [Fact]
    public async Task Page_SeveralSets_KeepsTheTicksOfEach()
    {
        await using OpenPage page = await browser.OpenAsync(pages.File("after-an-update", "plan.html"), PhoneWidth);

        await page.Page.Locator("#s1").CheckAsync();
        await page.Page.Locator("input[name=set][value='2']").CheckAsync();
        bool other = await page.Page.Locator("#s1").IsCheckedAsync();
        await page.Page.ReloadAsync();
        bool chosen = await page.Page.Locator("input[name=set][value='2']").IsCheckedAsync();
        await page.Page.Locator("input[name=set][value='0']").CheckAsync();

        Assert.False(other);
        Assert.True(chosen);
        Assert.True(await page.Page.Locator("#s1").IsCheckedAsync());
    }

    [Theory]
    [MemberData(nameof(Protocols))]
    public async Task Page_DeepInALongSection_KeepsItsHeadingInView(string name)
    {
        await using OpenPage page = await browser.OpenAsync(pages.File(name, "plan.html"), 360);

        // The last step of each section scrolled to the middle: its heading lies below the bar, whole, and nothing covers it.
        string[] hidden = await page.Page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll("section:has(.steps)")].filter(section => {
              section.querySelector(".steps > :last-child").scrollIntoView({ block: "center", behavior: "instant" });
              const box = section.querySelector("h2").getBoundingClientRect();
              const bar = document.querySelector("nav").getBoundingClientRect();
              const at = document.elementFromPoint(box.left + 4, (box.top + box.bottom) / 2);
              return box.top < bar.bottom - 1 || box.bottom > window.innerHeight || !section.querySelector("h2").contains(at);
            }).map(section => section.querySelector("h2").textContent)
            """);

        Assert.Empty(hidden);
        Assert.NotEqual(0, await page.Page.Locator("section:has(.steps)").CountAsync());
    }

    [Fact]
    public async Task Page_Next_GoesToTheFirstStepNotTicked()
    {
        await using OpenPage page = await browser.OpenAsync(pages.File("evening", "plan.html"), PhoneWidth);
        await page.Page.EvaluateAsync("() => { for (const b of document.querySelectorAll('.steps input')) if (b.id !== 's40') b.checked = true; }");
        await page.Page.Locator("#s39").UncheckAsync();
        await page.Page.Locator("#s39").CheckAsync();

        await page.Page.Locator("#next").ClickAsync();

        Assert.Equal("s40", await page.Page.EvaluateAsync<string>("() => document.activeElement.id"));
        Assert.Equal("s40", await page.Page.Locator("li.next input").GetAttributeAsync("id"));
    }

    [Fact]
    public async Task Page_Reset_WantsTwoTaps()
    {
        await using OpenPage page = await browser.OpenAsync(pages.File("evening", "plan.html"), PhoneWidth);
        await page.Page.Locator("#s1").CheckAsync();

        await page.Page.Locator("#reset").ClickAsync();
        bool still = await page.Page.Locator("#s1").IsCheckedAsync();
        await page.Page.Locator("#reset").ClickAsync();

        Assert.True(still);
        Assert.False(await page.Page.Locator("#s1").IsCheckedAsync());
    }

    [Fact]
    public async Task Page_Steps_AreTargetsForAThumb()
    {
        await using OpenPage page = await browser.OpenAsync(pages.File("evening", "plan.html"), PhoneWidth);

        double[] heights = await page.Page.EvaluateAsync<double[]>("() => [...document.querySelectorAll('.steps label, button')].map(e => e.getBoundingClientRect().height)");

        Assert.InRange(heights.Min(), SmallestTarget, double.MaxValue);
    }
}
