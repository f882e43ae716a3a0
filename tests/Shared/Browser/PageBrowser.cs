using Microsoft.Playwright;

namespace SensorLab.TestData;

/// <summary>A Chromium that opens pages of ours as a reader would; one for all tests of a class.</summary>
/// <remarks>Debian's own, which <c>src/install.sh --tests</c> installs; where there is none, its tests are skipped with the reason.</remarks>
public sealed class PageBrowser : IAsyncLifetime
{
    private const string Chromium = "/usr/bin/chromium";

    private static readonly string[] Flags =
    [
        "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
        "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ];

    private IPlaywright? _playwright;
    private IBrowser? _browser;

    public async ValueTask InitializeAsync()
    {
        if (File.Exists(Chromium))
        {
            _playwright = await Playwright.CreateAsync();
            _browser = await _playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions { ExecutablePath = Chromium, Args = Flags });
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
    }

    /// <summary>Opens a file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="width">Width of the window in pixels.</param>
    /// <param name="isDark">Whether the reader prefers dark pages.</param>
    /// <param name="height">Height of the window in pixels.</param>
    public async Task<OpenPage> OpenAsync(string path, int width, bool isDark = false, int height = 900)
    {
        Assert.SkipWhen(_browser is null, $"There is no {Chromium}: bash src/install.sh --tests installs it.");
        IBrowserContext context = await _browser!.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = new ViewportSize { Width = width, Height = height },
            ColorScheme = isDark ? ColorScheme.Dark : ColorScheme.Light,
        });
        var page = new OpenPage(await context.NewPageAsync());
        await page.GoToAsync(path);
        return page;
    }
}
