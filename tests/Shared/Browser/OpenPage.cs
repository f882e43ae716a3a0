using Microsoft.Playwright;

namespace SensorLab.TestData;

/// <summary>A page in the browser, with what went wrong on it.</summary>
public sealed class OpenPage : IAsyncDisposable
{
    private readonly List<string> _complaints = [];
    private readonly List<string> _requests = [];

    internal OpenPage(IPage page)
    {
        Page = page;
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
            {
                _complaints.Add(message.Text);
            }
        };
        page.PageError += (_, error) => _complaints.Add(error);
        page.Request += (_, request) => _requests.Add(request.Url);
        page.Dialog += async (_, dialog) =>
        {
            _complaints.Add("A dialog opened: " + dialog.Message);
            await dialog.DismissAsync();
        };
    }

    public IPage Page { get; }

    /// <summary>Console errors and warnings, uncaught errors, dialogs.</summary>
    public IReadOnlyList<string> Complaints => _complaints;

    /// <summary>What the page asked for beside itself.</summary>
    public IReadOnlyList<string> Requests => [.. _requests.Skip(1).Where(url => !url.StartsWith("data:", StringComparison.Ordinal))];

    public ValueTask DisposeAsync() => new(Page.Context.CloseAsync());

    internal async Task GoToAsync(string path) => await Page.GotoAsync(new Uri(path).AbsoluteUri, new PageGotoOptions { WaitUntil = WaitUntilState.Load });

    /// <summary>By how many pixels the page is wider than its window.</summary>
    public Task<int> OverflowAsync() => Page.EvaluateAsync<int>("() => document.documentElement.scrollWidth - document.documentElement.clientWidth");

    /// <summary>The processor time that the page takes to load and lay out, in milliseconds.</summary>
    /// <remarks>Not the clock's: on a machine that builds something else at the same time, that would measure the machine.</remarks>
    public async Task<double> LoadMillisecondsAsync()
    {
        ICDPSession session = await Page.Context.NewCDPSessionAsync(Page);
        await session.SendAsync("Performance.enable", new Dictionary<string, object> { ["timeDomain"] = "threadTicks" });
        double before = await TaskSecondsAsync(session);
        await Page.ReloadAsync(new PageReloadOptions { WaitUntil = WaitUntilState.Load });
        await Page.EvaluateAsync("() => new Promise(done => requestAnimationFrame(() => setTimeout(done, 0)))");
        return 1000 * (await TaskSecondsAsync(session) - before);
    }

    private static async Task<double> TaskSecondsAsync(ICDPSession session)
    {
        System.Text.Json.JsonElement answer = (await session.SendAsync("Performance.getMetrics"))!.Value;
        return answer.GetProperty("metrics").EnumerateArray().Single(m => m.GetProperty("name").GetString() == "TaskDuration").GetProperty("value").GetDouble();
    }

    /// <summary>What a screen reader or a keyboard would stumble over.</summary>
    public Task<string[]> StructureFaultsAsync() => Page.EvaluateAsync<string[]>(
        """
        () => {
          const faults = [];
          if (!document.documentElement.lang) faults.push('no language');
          if (document.querySelectorAll('h1').length !== 1) faults.push('not one h1');
          let last = 0;
          for (const h of document.querySelectorAll('h1,h2,h3,h4,h5,h6')) {
            const level = Number(h.tagName[1]);
            if (level > last + 1) faults.push(`heading level ${last} to ${level}: ${h.textContent}`);
            if (!h.textContent.trim()) faults.push('an empty heading');
            last = level;
          }
          for (const t of document.querySelectorAll('table')) {
            if (!t.caption || !t.caption.textContent.trim()) faults.push('a table without a caption');
            if (!t.tHead || [...t.tHead.querySelectorAll('th')].some(h => h.scope !== 'col')) faults.push('column headers: ' + t.caption?.textContent);
            if ([...t.tBodies].some(b => [...b.rows].some(r => r.cells[0].tagName !== 'TH' || r.cells[0].scope !== 'row'))) faults.push('row headers: ' + t.caption?.textContent);
          }
          for (const s of document.querySelectorAll('svg')) {
            const names = (s.getAttribute('aria-labelledby') || '').split(' ').map(id => document.getElementById(id));
            if (s.getAttribute('role') !== 'img' || names.length < 2 || names.some(n => !n || !n.textContent.trim())) faults.push('a picture without alternative text');
          }
          for (const i of document.querySelectorAll('img')) if (!i.alt) faults.push('an image without alternative text');
          const ids = [...document.querySelectorAll('[id]')].map(e => e.id);
          if (new Set(ids).size !== ids.length) faults.push('an id twice');
          for (const a of document.querySelectorAll('a[href^="#"]')) if (!document.getElementById(a.getAttribute('href').slice(1))) faults.push('a link to nowhere: ' + a.getAttribute('href'));
          return faults;
        }
        """);
}
