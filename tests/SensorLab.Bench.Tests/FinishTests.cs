using System.Text;
using System.Text.Json.Nodes;
using SensorLab.Bench.Api;
using SensorLab.Debrief;
using SensorLab.Debriefs;
using SensorLab.Profiles;
using SensorLab.Publishing.Keys;
using SensorLab.Publishing.Verification;
using SensorLab.Reports;
using SensorLab.Retest;

namespace SensorLab.Bench.Tests;

/// <summary>What is made of a finished set.</summary>
public sealed class FinishTests(RehearsedEvening evening) : IClassFixture<RehearsedEvening>
{
    [Fact]
    public async Task FinishedSet_IsDebriefedComparedWithTheShelfsProfileAndSigned()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        string earlier = Path.Combine(bench.Shelf, FolderShelf.EarlierName);
        for (int i = 0; i < evening.Frames.Count; i++)
        {
            evening.Shoot(bench.Card, i);
        }

        await bench.OpenAsync(evening.PlanDocument);
        await bench.UntilAsync(s => s.Frames.Assigned == evening.Frames.Count, "the evening is told");
        byte[] document = await bench.FinishAsync();
        BenchState done = await bench.UntilAsync(s => s.Profile!.Shelf is not null, "the shelf is looked at");
        Assert.False(done.Profile!.Shelf!.Holds);
        Assert.Empty(done.Profile.Shelf.Earlier);

        await DebriefAsync(bench);
        await File.WriteAllBytesAsync(earlier, document, TestContext.Current.CancellationToken);
        await bench.PostAsync("/api/shelf", new JsonObject());
        ShelfView shelved = (await bench.StateAsync()).Profile!.Shelf!;
        Assert.True(shelved.Holds);
        await RetestAsync(bench, Assert.Single(shelved.Earlier).Path);
        await PublishAsync(bench, earlier);
        ProfileBrief all = (await bench.StateAsync()).Profile!;
        Assert.True(all is { HasDebrief: true, HasRetest: true, HasBundle: true }, "one does not take the other away");
    }

    private static async Task DebriefAsync(RunningBench bench)
    {
        await bench.PostAsync("/api/debrief", new JsonObject { ["folder"] = Path.Combine(bench.Card, "none") });
        BenchState refused = await bench.UntilAsync(s => s.Progress is null, "the folder that is none is refused");
        await bench.PostAsync("/api/debrief", new JsonObject { ["folder"] = bench.Card });
        BenchState done = await bench.UntilAsync(s => s.Profile!.HasDebrief && s.Progress is null, "the day is read");
        byte[] page = await bench.Client.GetByteArrayAsync(new Uri("/debrief/debrief.html", UriKind.Relative), TestContext.Current.CancellationToken);
        SensorProfile profile = SensorProfileReader.ReadFile(done.Profile!.Path);
        DayDebrief day = await DebriefRun.RunAsync(profile, bench.Card, jobs: 2, cancellation: TestContext.Current.CancellationToken);

        Assert.Contains("none", refused.Trouble, StringComparison.Ordinal);
        Assert.False(refused.Profile!.HasDebrief);
        Assert.Null(done.Trouble);
        Assert.Equal("done", done.Phase);
        Assert.Equal(DebriefWriter.Files(day).Single(f => f.Name == "debrief.html").Bytes.ToArray(), page);
    }

    private static async Task RetestAsync(RunningBench bench, string before)
    {
        await bench.PostAsync("/api/retest", new JsonObject { ["before"] = before });
        byte[] page = await bench.Client.GetByteArrayAsync(new Uri("/retest/retest.html", UriKind.Relative), TestContext.Current.CancellationToken);
        SensorProfile profile = SensorProfileReader.ReadFile(before);
        RetestResult result = RetestRun.Of(profile, profile, [], RetestMargins.Default, TestContext.Current.CancellationToken);

        Assert.Equal(RetestReportWriter.Files(result, TestContext.Current.CancellationToken).Single(f => f.Name == "retest.html").Bytes.ToArray(), page);
    }

    private static async Task PublishAsync(RunningBench bench, string noKey)
    {
        PublicKey own = KeyPairFiles.Create(bench.Beside("own.pem"), TestContext.Current.CancellationToken);
        PublicKey other = KeyPairFiles.Create(bench.Beside("other.pem"), TestContext.Current.CancellationToken);
        await bench.PostAsync("/api/publish", Request(bench.Beside("own.pem")));
        byte[] bundle = await bench.Client.GetByteArrayAsync(new Uri("/bundle.zip", UriKind.Relative), TestContext.Current.CancellationToken);
        using var wrong = new StringContent(Request(noKey).ToJsonString(), Encoding.UTF8, "application/json");
        using HttpResponseMessage refused = await bench.Client.PostAsync(new Uri("/api/publish", UriKind.Relative), wrong, TestContext.Current.CancellationToken);

        Assert.True(BundleVerifier.Verify(bundle, own).IsValid, "the bundle is signed by the key");
        Assert.False(BundleVerifier.Verify(bundle, other).IsValid);
        Assert.Equal(422, (int)refused.StatusCode);
    }

    private static JsonObject Request(string key) => new() { ["anonymous"] = false, ["acceptFindings"] = true, ["key"] = key };
}
