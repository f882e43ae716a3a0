using System.Net;
using System.Net.Sockets;
using System.Text;

namespace SensorLab.Bench.Tests;

/// <summary>Who gets in, and what the bench bears.</summary>
public sealed class AccessTests
{
    [Fact]
    public async Task Request_WithoutToken_Gets401()
    {
        await using RunningBench bench = await RunningBench.StartAsync();

        Assert.Equal(401, await StatusAsync(bench, "GET /api/state HTTP/1.1", Host(bench)));
        Assert.Equal(401, await StatusAsync(bench, "GET / HTTP/1.1", Host(bench)));
        Assert.Equal(401, await StatusAsync(bench, "GET /api/state?token=00 HTTP/1.1", Host(bench)));
    }

    [Fact]
    public async Task Request_OfAnotherHost_Gets403EvenWithTheToken()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        string line = $"GET /api/state?token={bench.Server.Token} HTTP/1.1";

        Assert.Equal(200, await StatusAsync(bench, line, Host(bench)));
        Assert.Equal(403, await StatusAsync(bench, line, $"Host: rebound.example:{new Uri(bench.Server.Root).Port}"));
        Assert.Equal(403, await StatusAsync(bench, line, "Host: 127.0.0.1"));
    }

    [Theory]
    [InlineData("Origin: http://elsewhere.example")]
    [InlineData("Origin: null")]
    [InlineData("Sec-Fetch-Site: cross-site")]
    public async Task Request_FromAnotherSite_Gets403EvenWithTheToken(string header)
    {
        await using RunningBench bench = await RunningBench.StartAsync();

        Assert.Equal(403, await StatusAsync(bench, $"GET /api/state?token={bench.Server.Token} HTTP/1.1", Host(bench), header));
        Assert.Equal(403, await StatusAsync(bench, $"POST /api/characterise?token={bench.Server.Token} HTTP/1.1", Host(bench), header, "Content-Length: 0"));
    }

    [Fact]
    public async Task Address_WithToken_GivesACookieOfTheSameSiteAlone()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = RunningBench.NewClient();
        using HttpResponseMessage answer = await client.GetAsync(new Uri(bench.Server.Address), TestContext.Current.CancellationToken);

        string cookie = answer.Headers.GetValues("Set-Cookie").Single();
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.Equal("/", answer.Headers.Location!.OriginalString);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData("/page/../../../../etc/passwd")]
    [InlineData("/page/..%2f..%2f..%2fetc%2fpasswd")]
    [InlineData("/report/../../../etc/passwd")]
    [InlineData("/report/..%2f..%2f..%2fetc%2fpasswd")]
    [InlineData("/report/%2e%2e/%2e%2e/etc/passwd")]
    [InlineData("/plan/..%5c..%5csecret")]
    [InlineData("/chart/..%2fsecret")]
    public async Task Path_OutOfThePage_Gets404(string path)
    {
        await using RunningBench bench = await RunningBench.StartAsync();

        Assert.Equal(404, await StatusAsync(bench, $"GET {path}{(path.Contains('?', StringComparison.Ordinal) ? "&" : "?")}token={bench.Server.Token} HTTP/1.1", Host(bench)));
    }

    [Fact]
    public async Task Upload_Of10Gigabytes_IsRefusedAndTheBenchGoesOn()
    {
        await using RunningBench bench = await RunningBench.StartAsync();

        Assert.Equal(413, await StatusAsync(bench, $"POST /api/sets?token={bench.Server.Token} HTTP/1.1", Host(bench), "Content-Type: application/json", "Content-Length: 10737418240"));
        Assert.Equal("idle", (await bench.StateAsync()).Phase);
    }

    [Fact]
    public async Task Requests_TenThousandAtOnce_AreBorne()
    {
        const int Many = 10_000;
        await using RunningBench bench = await RunningBench.StartAsync();
        HttpClient client = RunningBench.NewClient(400);
        client.BaseAddress = new Uri(bench.Server.Root);
        int[] statuses = await Task.WhenAll(Enumerable.Range(0, Many).Select(async _ =>
        {
            try
            {
                using HttpResponseMessage answer = await client.GetAsync(new Uri($"/api/state?token={bench.Server.Token}", UriKind.Relative), TestContext.Current.CancellationToken);
                return (int)answer.StatusCode;
            }
            catch (HttpRequestException)
            {
                return 0;
            }
        }));

        client.Dispose();

        Assert.All(statuses, s => Assert.True(s is 200 or 503 or 0, $"{s}"));
        Assert.Contains(200, statuses);
        Assert.Equal("idle", (await bench.UntilAsync(_ => true, "the bench answers")).Phase);
    }

    [Fact]
    public async Task Folder_WithALinkOut_IsNotReadThroughIt()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        var evening = new RehearsedEvening();
        string outside = Directory.CreateDirectory(Path.Combine(Path.GetDirectoryName(bench.Card)!, "outside")).FullName;
        evening.Shoot(outside, 0);
        Directory.CreateSymbolicLink(Path.Combine(bench.Card, "more"), outside);
        File.CreateSymbolicLink(Path.Combine(bench.Card, "LINK.DNG"), Path.Combine(outside, RehearsedEvening.NameOf(0)));
        evening.Shoot(bench.Card, 1);
        await bench.OpenAsync(evening.PlanDocument);
        Api.BenchState state = await bench.UntilAsync(s => s.Frames.Seen > 0, "the folder's own frame is told");

        Assert.Equal(1, state.Frames.Seen);
    }

    [Theory]
    [InlineData("card")]
    [InlineData("../card")]
    [InlineData("/there/is/no/such/folder")]
    public async Task Set_OfAFolderThatIsNone_IsRefused(string folder)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using var content = new StringContent($$"""{"folder": "{{folder}}", "plan": null}""", Encoding.UTF8, "application/json");
        using HttpResponseMessage answer = await bench.Client.PostAsync(new Uri("/api/sets", UriKind.Relative), content, TestContext.Current.CancellationToken);

        Assert.InRange((int)answer.StatusCode, 400, 499);
        Assert.Equal("idle", (await bench.StateAsync()).Phase);
    }

    private static string Host(RunningBench bench) => $"Host: {new Uri(bench.Server.Root).Authority}";

    // A client of its own: the usual ones mend paths and hosts.
    private static async Task<int> StatusAsync(RunningBench bench, string line, params string[] headers)
    {
        using var socket = new TcpClient();
        await socket.ConnectAsync(IPAddress.Loopback, new Uri(bench.Server.Root).Port, TestContext.Current.CancellationToken);
        NetworkStream stream = socket.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes($"{line}\r\n{string.Join("\r\n", headers)}\r\nConnection: close\r\n\r\n"), TestContext.Current.CancellationToken);
        using var reader = new StreamReader(stream, Encoding.ASCII);
        string? status = await reader.ReadLineAsync(TestContext.Current.CancellationToken);
        return int.Parse(status!.Split(' ')[1], System.Globalization.CultureInfo.InvariantCulture);
    }
}
