using System.Text;
using Microsoft.Playwright;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Debriefs;

/// <summary>The debrief's page in a browser.</summary>
public sealed class DebriefPageTests(PageBrowser browser) : IClassFixture<PageBrowser>, IDisposable
{
    private const double MostMilliseconds = 3000;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData(360, false)]
    [InlineData(390, true)]
    [InlineData(1280, false)]
    [InlineData(2560, true)]
    public async Task Page_AnyScreen_FitsAndComplainsOfNothing(int width, bool isDark)
    {
        await using OpenPage page = await OpenAsync(40, width, isDark);

        Assert.Empty(page.Complaints);
        Assert.Empty(page.Requests);
        Assert.InRange(await page.OverflowAsync(), int.MinValue, 0);
        Assert.Empty(await page.StructureFaultsAsync());
        Assert.DoesNotContain("<script>alert", await page.Page.ContentAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_TwoThousandFrames_OpensWithinThreeSeconds()
    {
        await using OpenPage page = await OpenAsync(2000, 1280);

        Assert.InRange(await page.LoadMillisecondsAsync(), 0, MostMilliseconds);
        Assert.Equal(2000, await page.Page.Locator("#sheet > li").CountAsync());
        Assert.Equal("2000 frames", await page.Page.Locator("#shown").TextContentAsync());
    }

    [Fact]
    public async Task Page_SortAndFilter_ShowWhatIsAskedFor()
    {
        await using OpenPage page = await OpenAsync(60, 1280);
        IPage sheet = page.Page;

        await sheet.SelectOptionAsync("#order", "room");
        double[] rooms = await sheet.EvaluateAsync<double[]>("() => [...document.querySelectorAll('#sheet > li')].map(f => +f.dataset.room)");
        Assert.Equal(rooms.OrderDescending(), rooms);

        await sheet.SelectOptionAsync("#order", "taken");
        double[] times = await sheet.EvaluateAsync<double[]>("() => [...document.querySelectorAll('#sheet > li')].map(f => +f.dataset.taken)");
        Assert.Equal(times.Order(), times);

        await sheet.SelectOptionAsync("#filter", "lies");
        await sheet.SelectOptionAsync("#iso", "400");
        int shown = await sheet.EvaluateAsync<int>("() => [...document.querySelectorAll('#sheet > li')].filter(f => !f.hidden).length");
        int expected = SampleDay.Of(60).Frames.Count(f => f.Iso == 400 && (f.PreviewHidClipped == true || f.PreviewBlewRawHeld == true));
        Assert.Equal(expected, shown);
        Assert.InRange(expected, 1, 59);
        Assert.Equal($"{expected} of 60 frames", await sheet.Locator("#shown").TextContentAsync());
    }

    [Fact]
    public async Task Page_WithoutScripts_ShowsEveryFrame()
    {
        string path = Write(12);
        await using OpenPage page = await browser.OpenAsync(path, 1280, hasScripts: false);

        Assert.Equal(12, await page.Page.Locator("#sheet > li:visible").CountAsync());
        Assert.False(await page.Page.Locator("#controls").IsVisibleAsync());
    }

    [Fact]
    public async Task Page_Pictures_AreUprightAndDecode()
    {
        await using OpenPage page = await OpenAsync(20, 1280);

        string[] sizes = await page.Page.EvaluateAsync<string[]>(
            "async () => { const all = [...document.querySelectorAll('#sheet img')]; all.forEach(i => i.loading = 'eager'); await Promise.all(all.map(i => i.decode())); return all.map(i => `${i.naturalWidth}x${i.naturalHeight}`); }");
        Assert.Equal(20, sizes.Length);
        Assert.Equal(2, sizes.Count(s => s == "80x120"));
        Assert.Equal(18, sizes.Count(s => s == "120x80"));
    }

    [Fact]
    public void Files_SameDay_AreTheSameBytes() =>
        Assert.All(DebriefWriter.Files(SampleDay.Of(5)).Zip(DebriefWriter.Files(SampleDay.Of(5))), pair => Assert.True(pair.First.Bytes.Span.SequenceEqual(pair.Second.Bytes.Span)));

    [Fact]
    public void Csv_Frames_HaveARowEach()
    {
        string text = Encoding.UTF8.GetString(DebriefWriter.Files(SampleDay.Of(5)).Single(f => f.Name == "debrief.csv").Bytes.Span);

        Assert.StartsWith("file,iso,profileIso,exposureSeconds,", text, StringComparison.Ordinal);
        Assert.Equal(6, text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
    }

    private Task<OpenPage> OpenAsync(int frames, int width, bool isDark = false) => browser.OpenAsync(Write(frames), width, isDark);

    private string Write(int frames)
    {
        string path = _folder.File($"debrief-{frames}.html");
        File.WriteAllBytes(path, DebriefWriter.Files(SampleDay.Of(frames)).Single(f => f.Name == "debrief.html").Bytes.ToArray());
        return path;
    }
}
