using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using SensorLab.Fuzzing.Documents;

namespace SensorLab.Bench.Tests;

/// <summary>Mutated requests and journals: each is answered or passed over, and the bench goes on.</summary>
public sealed class MutatedDocumentTests(RehearsedEvening evening) : IClassFixture<RehearsedEvening>
{
    private const int RequestsOfAnAddress = 25;
    private const int Journals = 40;

    /// <summary>A number in place of both, for a long run.</summary>
    private static readonly int? Asked = int.TryParse(Environment.GetEnvironmentVariable("SENSORLAB_DOCUMENTS"), out int asked) ? asked : null;

    public static TheoryData<string> Addresses => ["/api/sets", "/api/plan", "/api/frames", "/api/wanted", "/api/retest", "/api/debrief", "/api/publish"];

    [Theory]
    [MemberData(nameof(Addresses))]
    public async Task Request_Mutated_IsAnsweredOrRefused(string address)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        evening.Shoot(bench.Card, 0);
        await bench.OpenAsync(evening.PlanDocument);
        string sound = SoundBody(address, bench.Card).ToJsonString();
        var mutator = new DocumentMutator(seed: 1);
        var statuses = new List<int>();
        for (int i = 0; i < (Asked ?? RequestsOfAnAddress); i++)
        {
            string body = mutator.Mutate(sound);
            using var content = new StringContent(body, Encoding.UTF8, "application/json");
            using HttpResponseMessage answer = await bench.Client.PostAsync(new Uri(address, UriKind.Relative), content, TestContext.Current.CancellationToken);
            statuses.Add((int)answer.StatusCode);
            Assert.True(answer.StatusCode < HttpStatusCode.InternalServerError, $"{address}: {answer.StatusCode} to {body}");
        }

        Assert.Contains(statuses, s => s is >= 400 and < 500);
        Assert.NotEmpty((await bench.StateAsync()).Phase);
    }

    [Fact]
    public async Task Journal_Mutated_IsTakenOrPassedOver()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        await bench.OpenAsync(evening.PlanDocument);
        string path = Directory.EnumerateFiles(Path.Combine(Path.GetDirectoryName(bench.Card)!, "data"), "set.json", SearchOption.AllDirectories).Single();
        string sound = await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken);
        var mutator = new DocumentMutator(seed: 2);
        var phases = new List<string>();
        for (int i = 0; i < (Asked ?? Journals); i++)
        {
            await File.WriteAllTextAsync(path, i == 0 ? "null" : mutator.Mutate(sound), TestContext.Current.CancellationToken);
            await using RunningBench afterwards = await bench.AfterwardsAsync();
            phases.Add((await afterwards.StateAsync()).Phase);
        }

        Assert.Contains("shooting", phases);
        Assert.Contains("idle", phases);
    }

    private JsonObject SoundBody(string address, string card) => address switch
    {
        "/api/sets" => new JsonObject
        {
            ["folder"] = card,
            ["plan"] = evening.PlanDocument,
            ["metered"] = new JsonArray(new JsonObject { ["exposureSeconds"] = 0.25, ["iso"] = 100 }),
        },
        "/api/plan" => new JsonObject
        {
            ["protocol"] = "evening", ["isos"] = new JsonArray(100, 800), ["fastest"] = "1/8000", ["slowest"] = "30", ["meteredShutter"] = "1/4", ["meteredIso"] = 100, ["mains"] = 50, ["from"] = card,
        },
        "/api/frames" => new JsonObject { ["files"] = new JsonArray(RehearsedEvening.NameOf(0)), ["role"] = "dark", ["lightStep"] = "a" },
        "/api/wanted" => new JsonObject { ["figure"] = "aboveEv", ["uncertainty"] = 0.05 },
        "/api/retest" => new JsonObject { ["before"] = card },
        "/api/debrief" => new JsonObject { ["folder"] = card },
        _ => new JsonObject { ["anonymous"] = true, ["acceptFindings"] = true },
    };
}
