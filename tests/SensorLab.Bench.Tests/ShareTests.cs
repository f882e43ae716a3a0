using System.Net;
using SensorLab.Bench.Api;

namespace SensorLab.Bench.Tests;

/// <summary>What phones reach of a bench that is shared: two pages, and nothing else.</summary>
public sealed class ShareTests(RehearsedEvening evening) : IClassFixture<RehearsedEvening>
{
    // Another address of this machine stands for that of its network.
    private static readonly IPAddress Network = IPAddress.Parse("127.0.0.2");

    [Fact]
    public async Task Listener_OfTheShare_GivesItsPagesAndNothingElse()
    {
        await using RunningBench bench = await RunningBench.StartAsync(o => o with { IsShared = true, ShareAddress = Network });
        await bench.OpenAsync(evening.PlanDocument);
        ShareBrief share = (await bench.StateAsync()).Share!;
        Uri list = new(share.ShotList!);
        using HttpClient phone = RunningBench.NewClient();
        string shots = await phone.GetStringAsync(list, TestContext.Current.CancellationToken);

        Assert.Contains("ISO 800", shots, StringComparison.Ordinal);
        Assert.Null(share.PocketSheet);
        string[] paths =
        [
            "/", "/s/", "/s", "/page/bench.js", "/api/state", "/api/frames", "/api/events", "/api/folders", "/plan/plan.html", "/report/report.html", "/profile.json", "/pocket.html", "/bundle.zip", "/share/shot-list.svg",
            $"/?token={bench.Server.Token}", $"/api/state?token={bench.Server.Token}", $"/s/{bench.Server.Token}", $"{list.AbsolutePath}/..", $"{list.AbsolutePath}x", "/s/..%2f..%2fapi%2fstate", $"//{list.Authority}/api/state",
        ];
        foreach (string path in paths)
        {
            Assert.Equal(404, await StatusAsync(phone, HttpMethod.Get, $"http://{list.Authority}{path}", bench));
        }

        Assert.Equal(404, await StatusAsync(phone, HttpMethod.Post, list.AbsoluteUri, bench));
        Assert.Equal(404, await StatusAsync(phone, HttpMethod.Post, $"http://{list.Authority}/api/close?token={bench.Server.Token}", bench));
        Assert.Equal(404, await StatusAsync(phone, HttpMethod.Get, list.AbsoluteUri, bench, host: "rebound.example"));

        // Nor does a phone's link open the bench itself.
        Assert.Equal(401, await StatusAsync(phone, HttpMethod.Get, $"{bench.Server.Root}/api/state?token={list.Segments[^1]}", bench: null));
        Assert.Equal("shooting", (await bench.StateAsync()).Phase);
    }

    [Fact]
    public async Task Bench_NotShared_ListensOnThisMachineAlone()
    {
        await using RunningBench bench = await RunningBench.StartAsync(o => o with { ShareAddress = Network });
        using HttpClient phone = RunningBench.NewClient();

        Assert.Empty(bench.Server.SharedWith);
        await Assert.ThrowsAsync<HttpRequestException>(() => phone.GetStringAsync(new Uri($"http://{Network}:{new Uri(bench.Server.Root).Port}/"), TestContext.Current.CancellationToken));
    }

    private static async Task<int> StatusAsync(HttpClient phone, HttpMethod method, string address, RunningBench? bench, string? host = null)
    {
        using var request = new HttpRequestMessage(method, address);
        request.Headers.Host = host;
        if (bench is not null)
        {
            request.Headers.Add("Cookie", $"sensorlab-{new Uri(bench.Server.Root).Port}={bench.Server.Token}");
        }

        using HttpResponseMessage answer = await phone.SendAsync(request, TestContext.Current.CancellationToken);
        return (int)answer.StatusCode;
    }
}
