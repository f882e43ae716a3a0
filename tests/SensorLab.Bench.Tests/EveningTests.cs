using System.Text.Json;
using SensorLab.Bench.Api;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Bench.Tests;

/// <summary>A whole evening, frame by frame, against the command line's measuring of the same folder.</summary>
public sealed class EveningTests(RehearsedEvening evening) : IClassFixture<RehearsedEvening>
{
    [Fact]
    public async Task Evening_InOrder_GivesTheCommandLinesProfileAndMeasuresNothingTwice()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        await bench.OpenAsync(evening.PlanDocument);
        for (int i = 0; i < evening.Frames.Count; i++)
        {
            evening.Shoot(bench.Card, i);
            if (i % 8 == 7)
            {
                await bench.UntilAsync(s => s.Frames.Assigned == i + 1, "frames are told");
            }
        }

        BenchState all = await bench.UntilAsync(s => s.Frames.Assigned == evening.Frames.Count && s.Levels.All(l => l.State == "measured"), "all levels are measured");
        byte[] live = await bench.FinishAsync();
        BenchState done = await bench.StateAsync();

        Assert.All(all.Latest, f => Assert.Empty(f.Flaws));
        Assert.Equal(await ProfileOfAsync(bench.Card), live);
        Assert.Equal(done.Levels.Count, all.LevelsMeasured);
        Assert.Equal(all.LevelsMeasured, done.LevelsMeasured);
    }

    [Fact]
    public async Task Evening_InDisorderSlowlyAndTwice_GivesTheCommandLinesProfile()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        await bench.OpenAsync(evening.PlanDocument);
        int[] order = [.. Enumerable.Range(0, evening.Frames.Count)];
        new Random(7).Shuffle(order);
        foreach ((int count, int i) in order.Index())
        {
            byte[] file = evening.FileOf(evening.Frames[i]);
            string path = Path.Combine(bench.Card, RehearsedEvening.NameOf(i));
            if (count % 9 == 0)
            {
                await WriteSlowlyAsync(path, file);
            }
            else
            {
                await File.WriteAllBytesAsync(path + ".part", file, TestContext.Current.CancellationToken);
                File.Move(path + ".part", path);
            }

            // Frames that are white all over are alike without being copies.
            if (count % 10 == 0 && evening.StepOf(i).Ev is null or < 3)
            {
                File.Copy(path, Path.Combine(bench.Card, $"Copy of {Path.GetFileName(path)}"));
            }
        }

        BenchState all = await bench.UntilAsync(s => s.Frames.Assigned == evening.Frames.Count && s.Waiting.Count == 0, "every frame is told, no copy counts");
        byte[] live = await bench.FinishAsync();

        Assert.Equal(0, all.Frames.Refused);
        Assert.Equal(await ProfileOfAsync(bench.Card), live);
    }

    [Fact]
    public async Task Evening_OnALargePattern_GivesTheCommandLinesProfile()
    {
        var own = new RehearsedEvening(new VirtualBody { WidthPixels = 300, HeightPixels = 200, ColourFilterArray = "6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG" });
        await using RunningBench bench = await RunningBench.StartAsync();
        await bench.OpenAsync(own.PlanDocument);
        for (int i = 0; i < own.Frames.Count; i++)
        {
            own.Shoot(bench.Card, i);
        }

        BenchState all = await bench.UntilAsync(s => s.Frames.Assigned == own.Frames.Count && s.Levels.All(l => l.State == "measured"), "all levels are measured");

        byte[] live = await bench.FinishAsync();

        Assert.All(all.Latest, f => Assert.Empty(f.Flaws));
        Assert.Equal(await ProfileOfAsync(bench.Card), live);
    }

    [Fact]
    public async Task Bench_StoppedAndStartedAgain_GoesOnWhereItWasAndMeasuresNothingTwice()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        await bench.OpenAsync(evening.PlanDocument);
        int half = evening.Frames.Count / 2;
        for (int i = 0; i < half; i++)
        {
            evening.Shoot(bench.Card, i);
        }

        BenchState before = await bench.UntilAsync(s => s.Frames.Assigned == half && s.LevelsMeasured > 0 && s.LevelsMeasured == s.Levels.Count(l => l.Iso == evening.Plan.Isos[0] && l.Frames == l.Wanted), "half the evening is told, and its levels are measured");
        await using RunningBench again = await bench.AfterwardsAsync();
        BenchState after = await again.UntilAsync(s => s.Frames.Assigned == half && s.Figures.Count == before.Figures.Count, "half the evening is told again, and its figures are there");
        for (int i = half; i < evening.Frames.Count; i++)
        {
            evening.Shoot(bench.Card, i);
        }

        await again.UntilAsync(s => s.Frames.Assigned == evening.Frames.Count && s.Levels.All(l => l.State == "measured"), "the evening is told and measured");
        byte[] live = await again.FinishAsync();
        BenchState done = await again.StateAsync();

        Assert.Equal(before.Next, after.Next, new NextShotComparer());
        Assert.Equal(done.Levels.Count, before.LevelsMeasured + done.LevelsMeasured);
        Assert.Equal(await ProfileOfAsync(bench.Card), live);
        await using RunningBench finished = await again.AfterwardsAsync();
        BenchState kept = await finished.UntilAsync(s => s.Phase == "done", "the set is finished as it was");
        byte[] profile = await finished.Client.GetByteArrayAsync(new Uri("/profile.json", UriKind.Relative), TestContext.Current.CancellationToken);
        evening.Shoot(bench.Card, evening.Frames[^1], evening.Frames.Count + 1);
        await using RunningBench changed = await finished.AfterwardsAsync();
        BenchState reopened = await changed.UntilAsync(s => s.Frames.Seen == evening.Frames.Count + 1, "the frame that came since is told");

        Assert.Equal(done.Profile!.Path, kept.Profile!.Path);
        Assert.Equal(live, profile);
        Assert.Equal("shooting", reopened.Phase);
    }

    [Theory]
    [MemberData(nameof(FlawedShot.All), MemberType = typeof(FlawedShot))]
    public async Task Flaw_OfOneFrame_IsSaidAtThatFrame(string flaw)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        await bench.OpenAsync(evening.PlanDocument);
        var shot = new FlawedShot(flaw, evening);
        for (int i = 0; i < shot.At; i++)
        {
            evening.Shoot(bench.Card, i);
        }

        await bench.UntilAsync(s => s.Frames.Assigned == shot.At && s.Waiting.Count == 0, "the frames before are told");
        await File.WriteAllBytesAsync(Path.Combine(bench.Card, shot.Name), shot.File(), TestContext.Current.CancellationToken);
        BenchState told = await bench.UntilAsync(shot.IsTold, "the frame is told");

        Assert.True(shot.IsSaid(told), JsonSerializer.Serialize(told, BenchJson.Default.BenchState));
    }

    [Fact]
    public async Task Strike_OfAFrame_LeavesItOutUntilItIsJudgedAnew()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        await bench.OpenAsync(evening.PlanDocument);
        for (int i = 0; i < 4; i++)
        {
            evening.Shoot(bench.Card, i);
        }

        await bench.UntilAsync(s => s.Frames.Assigned == 4, "the frames are told");
        await bench.PostAsync("/api/frames", new System.Text.Json.Nodes.JsonObject { ["files"] = new System.Text.Json.Nodes.JsonArray(RehearsedEvening.NameOf(1)), ["role"] = "none" });
        BenchState struck = await bench.UntilAsync(s => s.Frames.Assigned == 3, "the frame is struck");
        await bench.PostAsync("/api/frames", new System.Text.Json.Nodes.JsonObject { ["files"] = new System.Text.Json.Nodes.JsonArray(RehearsedEvening.NameOf(1)), ["role"] = null });
        BenchState back = await bench.UntilAsync(s => s.Frames.Assigned == 4, "it is back");

        Assert.Equal(1, struck.Next!.Frames);
        Assert.NotEqual(struck.Next.Step, back.Next!.Step);
    }

    private static async Task WriteSlowlyAsync(string path, byte[] file)
    {
        await using FileStream stream = File.Create(path);
        foreach (byte[] part in file.Chunk((file.Length / 3) + 1))
        {
            await stream.WriteAsync(part, TestContext.Current.CancellationToken);
            await stream.FlushAsync(TestContext.Current.CancellationToken);
            await Task.Delay(90, TestContext.Current.CancellationToken);
        }
    }

    /// <summary>What <c>sensorlab characterise FOLDER --plan PLAN.json</c> writes.</summary>
    private async Task<byte[]> ProfileOfAsync(string folder)
    {
        SensorProfile profile = await Characterisation.RunAsync(folder, new CharacterisationOptions { Jobs = 2 }, null, TestContext.Current.CancellationToken);
        profile = profile with { Conditions = profile.Conditions with { Protocol = $"{evening.Plan.Protocol} {evening.Plan.ProtocolVersion}" } };
        using var document = new MemoryStream();
        SensorProfileWriter.Write(profile, document);
        return document.ToArray();
    }

    private sealed class NextShotComparer : IEqualityComparer<NextShot?>
    {
        public bool Equals(NextShot? x, NextShot? y) => x?.Step == y?.Step && x?.Frames == y?.Frames && x?.FramesLeft == y?.FramesLeft;

        public int GetHashCode(NextShot? obj) => obj?.Step ?? 0;
    }
}
