using System.Diagnostics.CodeAnalysis;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.Json.Nodes;
using SensorLab.Bench.Api;
using SensorLab.TestData;

namespace SensorLab.Bench.Tests;

/// <summary>A bench on a free port with a client that has its token, and folders of its own.</summary>
internal sealed class RunningBench : IAsyncDisposable
{
    private readonly TemporaryFolder _folder;
    private readonly bool _ownsFolder;
    private bool _isEnded;

    private RunningBench(BenchServer server, TemporaryFolder folder, bool ownsFolder)
    {
        Server = server;
        _folder = folder;
        _ownsFolder = ownsFolder;
        Client = NewClient();
        Client.BaseAddress = new Uri(server.Root);
        Client.DefaultRequestHeaders.Add("Cookie", $"sensorlab-{new Uri(server.Root).Port}={server.Token}");
    }

    public BenchServer Server { get; }

    public HttpClient Client { get; }

    public string Card => _folder.File("card");

    public string Shelf => _folder.File("shelf");

    /// <summary>A file beside the card.</summary>
    public string Beside(string name) => _folder.File(name);

    public static Task<RunningBench> StartAsync(Func<BenchOptions, BenchOptions>? change = null) => StartAsync(new TemporaryFolder(), ownsFolder: true, change);

    /// <summary>A client that sends what it is told and nothing else.</summary>
    /// <param name="connections">Connections at most.</param>
    [SuppressMessage("Reliability", "CA2000", Justification = "The client disposes of it.")]
    public static HttpClient NewClient(int connections = 10)
    {
        var handler = new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false, MaxConnectionsPerServer = connections };
        return new HttpClient(handler, disposeHandler: true);
    }

    /// <summary>Ends this one and starts another on its folders.</summary>
    public async Task<RunningBench> AfterwardsAsync()
    {
        await EndAsync();
        return await StartAsync(_folder, ownsFolder: false);
    }

    public async Task<BenchState> StateAsync() => (await Client.GetFromJsonAsync("/api/state", BenchJson.Default.BenchState, TestContext.Current.CancellationToken))!;

    /// <summary>Opens the card's folder with a plan, and waits for the first look.</summary>
    public async Task OpenAsync(JsonObject? plan)
    {
        await PostAsync("/api/sets", new JsonObject { ["folder"] = Card, ["plan"] = plan?.DeepClone(), ["metered"] = new JsonArray() });
        await UntilAsync(s => s.IsLooked, "the folder is looked through");
    }

    public async Task PostAsync(string address, JsonNode document)
    {
        using var content = new StringContent(document.ToJsonString(), System.Text.Encoding.UTF8, "application/json");
        using HttpResponseMessage answer = await Client.PostAsync(new Uri(address, UriKind.Relative), content, TestContext.Current.CancellationToken);
        Assert.True(answer.IsSuccessStatusCode, $"{address}: {answer.StatusCode} {await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)}");
    }

    /// <summary>Sets how sure a figure is to be.</summary>
    public Task WantAsync(string figure, double uncertainty) => PostAsync("/api/wanted", new JsonObject { ["figure"] = figure, ["uncertainty"] = uncertainty });

    /// <summary>Waits until the state is as wanted, five minutes at most: machines that build at the same time are slow.</summary>
    public async Task<BenchState> UntilAsync(Func<BenchState, bool> isSo, string what)
    {
        DateTime end = DateTime.UtcNow.AddMinutes(5);
        while (DateTime.UtcNow < end)
        {
            try
            {
                BenchState state = await StateAsync();
                if (isSo(state))
                {
                    return state;
                }
            }
            catch (HttpRequestException)
            {
                // Too many others ask at the same time: it is asked again.
            }

            await Task.Delay(20, TestContext.Current.CancellationToken);
        }

        BenchState last = await StateAsync();
        throw new TimeoutException($"{what}: {JsonSerializer.Serialize(last, BenchJson.Default.BenchState)}");
    }

    /// <summary>Finishes the set and gives its profile's document.</summary>
    public async Task<byte[]> FinishAsync()
    {
        await PostAsync("/api/characterise", new JsonObject());
        await UntilAsync(s => s.Phase == "done", "the set is finished");
        return await Client.GetByteArrayAsync(new Uri("/profile.json", UriKind.Relative), TestContext.Current.CancellationToken);
    }

    public async ValueTask DisposeAsync()
    {
        await EndAsync();
        if (_ownsFolder)
        {
            _folder.Dispose();
        }
    }

    private async Task EndAsync()
    {
        if (!_isEnded)
        {
            _isEnded = true;
            Client.Dispose();
            await Server.DisposeAsync();
        }
    }

    private static async Task<RunningBench> StartAsync(TemporaryFolder folder, bool ownsFolder, Func<BenchOptions, BenchOptions>? change = null)
    {
        Directory.CreateDirectory(folder.File("card"));
        Directory.CreateDirectory(folder.File("shelf"));
        var options = new BenchOptions { Shelf = new FolderShelf(folder.File("shelf")), DataFolder = folder.File("data"), PollInterval = TimeSpan.FromMilliseconds(60), Characterisation = new CharacterisationOptions { Jobs = 2 } };
        return new RunningBench(await BenchServer.StartAsync(change?.Invoke(options) ?? options, TestContext.Current.CancellationToken), folder, ownsFolder);
    }
}
