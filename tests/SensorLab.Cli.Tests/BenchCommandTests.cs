using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using SensorLab.Files;
using SensorLab.Planning.Plans;
using SensorLab.Planning.Protocols;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>The bench as a program of its own: ended, killed, and started again.</summary>
public sealed class BenchCommandTests : IDisposable
{
    private const int FewMoments = 3;

    private const int ManyMoments = 50;

    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(10);

    private readonly TemporaryFolder _folder = new();

    private string Card => _folder.File("card");

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Interrupt_EndsTheBenchWith0()
    {
        using Process bench = Start();
        string address = await AddressOfAsync(bench);
        using Process interrupt = Process.Start("kill", ["-INT", bench.Id.ToString(CultureInfo.InvariantCulture)]);
        await bench.WaitForExitAsync(TestContext.Current.CancellationToken).WaitAsync(Patience, TestContext.Current.CancellationToken);

        Assert.StartsWith("http://127.0.0.1:", address, StringComparison.Ordinal);
        Assert.Equal(ExitStatus.Done, bench.ExitCode);
    }

    [Theory]
    [InlineData("nowhere")]
    [InlineData("--port", "70000")]
    [InlineData("--port", "x")]
    public async Task Words_ThatAreOff_EndItAtOnce(params string[] words)
    {
        using Process bench = Start(words);
        await bench.WaitForExitAsync(TestContext.Current.CancellationToken).WaitAsync(Patience, TestContext.Current.CancellationToken);

        Assert.Equal(words.Length == 1 ? ExitStatus.File : ExitStatus.Usage, bench.ExitCode);
    }

    [Fact]
    public Task Bench_KilledAFewTimes_GivesTheCommandLinesProfileInTheEnd() => KillAsync(FewMoments);

    [Fact]
    [Trait("Category", "Study")]
    public Task Bench_KilledAtFiftyMoments_GivesTheCommandLinesProfileInTheEnd() => KillAsync(ManyMoments);

    /// <summary>Takes 30 GB of disk and a quarter of an hour.</summary>
    [Fact]
    [Trait("Category", "Study")]
    public async Task Bench_OfSixHundredFramesOf24Megapixels_NeedsTwiceTheMemoryOfCharacteriseAtMost()
    {
        int[] isos = [100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000];
        ShotPlan plan = LiveOrder.Of(ShotPlanner.Plan(new PlanRequest { Protocol = ProtocolLibrary.Find("evening")!, Isos = isos }));
        VirtualIso first = new VirtualBody().At(isos[0]);
        var body = new VirtualBody
        {
            WidthPixels = 6000,
            HeightPixels = 4000,
            IsoSettings = [.. isos.Select(iso => first with { Iso = iso, GainElectronPerDn = first.GainElectronPerDn * isos[0] / iso, MiddleGreyElectron = first.MiddleGreyElectron * isos[0] / iso })],
        };
        RehearsalPlan set = RehearsalPlan.Of(new RehearsalOptions { Body = body, Script = RehearsedPlan.Of(plan, []) });
        PlannedFrame[] frames = [.. set.Frames.OrderBy(f => f.Number)];
        Directory.CreateDirectory(Card);
        Parallel.For(0, frames.Length, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, i => File.WriteAllBytes(Path.Combine(Card, string.Create(CultureInfo.InvariantCulture, $"SKY_{i:0000}.DNG")), set.Encode(frames[i])));

        using Process bench = Start();
        using var client = new HttpClient { BaseAddress = new Uri(await AddressOfAsync(bench)), Timeout = Patience };
        var watch = Stopwatch.StartNew();
        using HttpResponseMessage opened = await PostAsync(client, "api/sets", new JsonObject { ["folder"] = Card, ["plan"] = JsonNode.Parse(ShotPlanDocument.Write(plan)) });
        await UntilAsync(client, s => (int)s["frames"]!["assigned"]! == frames.Length);
        TimeSpan told = watch.Elapsed;
        using HttpResponseMessage finish = await PostAsync(client, "api/characterise", new JsonObject());
        await UntilAsync(client, s => (string?)s["phase"] == "done");
        TimeSpan finished = watch.Elapsed;
        long ofBench = PeakBytesOf(bench);
        byte[] live = await client.GetByteArrayAsync(Token(client, "profile.json"), TestContext.Current.CancellationToken);
        bench.Kill();
        await File.WriteAllBytesAsync(_folder.File("plan.json"), ShotPlanDocument.Write(plan), TestContext.Current.CancellationToken);
        watch.Restart();
        using Process characterise = StartCommand("characterise", Card, "--plan", _folder.File("plan.json"), "--out", _folder.File("p.json"));
        long ofCharacterise = 0;
        while (!characterise.HasExited)
        {
            ofCharacterise = Math.Max(ofCharacterise, PeakBytesOf(characterise));
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }

        string text = string.Create(CultureInfo.InvariantCulture, $"{frames.Length} frames of 24 megapixels, all there when the set is opened: told after {told.TotalSeconds:F0} s, measured and finished after {finished.TotalSeconds:F0} s with {ofBench >> 20} MB at most; characterise takes {watch.Elapsed.TotalSeconds:F0} s and {ofCharacterise >> 20} MB, and writes the same profile.");
        TestContext.Current.TestOutputHelper!.WriteLine(text);
        if (Environment.GetEnvironmentVariable("SENSORLAB_WRITE_RESULTS") is not null)
        {
            StudyResults.Write("tests/SensorLab.Bench.Tests", "Memory for six hundred frames of 24 megapixels", "bash tests/studies.sh bench", text);
        }

        Assert.Equal(await File.ReadAllBytesAsync(_folder.File("p.json"), TestContext.Current.CancellationToken), live);
        Assert.InRange(ofBench, 1, 2 * ofCharacterise);
    }

    // The kernel's own mark of the most; nothing is left of it once the process has ended.
    private static long PeakBytesOf(Process process)
    {
        try
        {
            string? line = File.ReadLines($"/proc/{process.Id}/status").FirstOrDefault(l => l.StartsWith("VmHWM:", StringComparison.Ordinal));
            return line is null ? 0 : 1024 * long.Parse(line.Split(' ', StringSplitOptions.RemoveEmptyEntries)[^2].Split('\t')[^1], CultureInfo.InvariantCulture);
        }
        catch (IOException)
        {
            return 0;
        }
    }

    private async Task KillAsync(int moments)
    {
        ShotPlan plan = LiveOrder.Of(ShotPlanner.Plan(new PlanRequest { Protocol = ProtocolLibrary.Find("evening")!, Isos = [400] }));
        await File.WriteAllBytesAsync(_folder.File("plan.json"), ShotPlanDocument.Write(plan), TestContext.Current.CancellationToken);
        RehearsalPlan set = RehearsalPlan.Of(new RehearsalOptions { Body = new VirtualBody { WidthPixels = 192, HeightPixels = 128 }, Script = RehearsedPlan.Of(plan, []) });
        PlannedFrame[] frames = [.. set.Frames.OrderBy(f => f.Number)];
        Directory.CreateDirectory(Card);
        var random = new Random(23);
        int shot = 0;
        await OpenAndKillAsync(plan, random);
        for (int moment = 0; moment < moments; moment++)
        {
            using Process bench = Start();
            using var client = new HttpClient { BaseAddress = new Uri(await AddressOfAsync(bench)) };
            int until = frames.Length * (moment + 1) / moments;
            for (; shot < until; shot++)
            {
                WholeFile.Write(Path.Combine(Card, string.Create(CultureInfo.InvariantCulture, $"SKY_{shot:0000}.DNG")), set.Encode(frames[shot]), TestContext.Current.CancellationToken);
            }

            await Task.Delay(random.Next(3000), TestContext.Current.CancellationToken);
            if (moment % 3 == 2)
            {
                using HttpResponseMessage begun = await PostAsync(client, "api/characterise", new JsonObject());
                await Task.Delay(random.Next(500), TestContext.Current.CancellationToken);
            }

            bench.Kill();
            await bench.WaitForExitAsync(TestContext.Current.CancellationToken);
        }

        using Process last = Start();
        using var end = new HttpClient { BaseAddress = new Uri(await AddressOfAsync(last)) };
        await UntilAsync(end, s => (int)s["frames"]!["assigned"]! == frames.Length);
        using HttpResponseMessage finish = await PostAsync(end, "api/characterise", new JsonObject());
        await UntilAsync(end, s => (string?)s["phase"] == "done");
        byte[] live = await end.GetByteArrayAsync(Token(end, "profile.json"), TestContext.Current.CancellationToken);
        last.Kill();
        await last.WaitForExitAsync(TestContext.Current.CancellationToken);
        int status = await new CommandLine(Workbench.Library, new Terminal(TextWriter.Null, TextWriter.Null, null)).RunAsync(["characterise", Card, "--plan", _folder.File("plan.json"), "--out", _folder.File("p.json")], TestContext.Current.CancellationToken);

        Assert.Equal(ExitStatus.Done, status);
        Assert.Equal(await File.ReadAllBytesAsync(_folder.File("p.json"), TestContext.Current.CancellationToken), live);
    }

    private async Task OpenAndKillAsync(ShotPlan plan, Random random)
    {
        using Process bench = Start();
        using var client = new HttpClient { BaseAddress = new Uri(await AddressOfAsync(bench)) };
        var request = new JsonObject { ["folder"] = Card, ["plan"] = JsonNode.Parse(ShotPlanDocument.Write(plan)) };
        using HttpResponseMessage opened = await PostAsync(client, "api/sets", request);
        Assert.True(opened.IsSuccessStatusCode);
        await Task.Delay(random.Next(200), TestContext.Current.CancellationToken);
        bench.Kill();
        await bench.WaitForExitAsync(TestContext.Current.CancellationToken);
    }

    private static async Task UntilAsync(HttpClient client, Func<JsonNode, bool> isSo)
    {
        DateTime end = DateTime.UtcNow + Patience;
        while (!isSo(JsonNode.Parse(await client.GetStringAsync(Token(client, "api/state"), TestContext.Current.CancellationToken))!))
        {
            Assert.True(DateTime.UtcNow < end, "The bench came to nothing.");
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }
    }

    private static async Task<HttpResponseMessage> PostAsync(HttpClient client, string address, JsonNode document)
    {
        using var content = new StringContent(document.ToJsonString(), Encoding.UTF8, "application/json");
        return await client.PostAsync(Token(client, address), content, TestContext.Current.CancellationToken);
    }

    private static Uri Token(HttpClient client, string address) => new(client.BaseAddress!, $"/{address}{client.BaseAddress!.Query}");

    private static async Task<string> AddressOfAsync(Process bench)
    {
        string? line = await bench.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken).AsTask().WaitAsync(Patience, TestContext.Current.CancellationToken);
        return line!.Split(": ", 2)[1];
    }

    private Process Start(params string[] words) => StartCommand(["bench", "--no-browser", .. words]);

    private Process StartCommand(params string[] words)
    {
        var start = new ProcessStartInfo("env", ["--default-signal=INT", "dotnet", Path.Combine(AppContext.BaseDirectory, "SensorLab.Cli.dll"), .. words])
        {
            WorkingDirectory = _folder.Path,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment["XDG_DATA_HOME"] = _folder.File("data");
        start.Environment["XDG_CONFIG_HOME"] = _folder.File("config");
        return Process.Start(start)!;
    }
}
