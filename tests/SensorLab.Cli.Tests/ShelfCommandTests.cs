using System.Text.Json.Nodes;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

public sealed class ShelfCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private Workbench Workbench => CommandRun.Sample with { ShelfFolder = _folder.File("shelf"), SettingsPath = _folder.File("settings.json") };

    [Fact]
    public async Task Add_ProfileBundleAndFolder_TakesEachInOnce()
    {
        SensorProfile earlier = SampleProfiles.ThreeIsos();
        Directory.CreateDirectory(_folder.File("team/deep"));
        SensorProfileWriter.WriteFile(earlier, _folder.File("a.json"), Token);
        SensorProfileWriter.WriteFile(earlier, _folder.File("team/deep/same.json"), Token);
        SensorProfileWriter.WriteFile(OfBody("20418"), _folder.File("team/b.json"), Token);
        await File.WriteAllTextAsync(_folder.File("team/plan.json"), "{}", Token);
        Assert.Equal(0, (await RunAsync("publish", _folder.File("a.json"), "--out", _folder.File("a.zip"), "--accept-findings")).Status);

        CommandRun added = await RunAsync("shelf", "add", _folder.File("a.json"), _folder.File("a.zip"), _folder.File("team"));

        Assert.Equal(0, added.Status);
        Assert.Contains("2 profiles taken in, 2 there already.", added.Output, StringComparison.Ordinal);
        Assert.Equal(["20417", "20418"], (await ListAsync())["bodies"]!.AsArray().Select(b => (string)b!["serialNumber"]!));
    }

    [Fact]
    public async Task Add_OneFileThatIsNone_EndsInFourAndTakesTheOthersIn()
    {
        SensorProfileWriter.WriteFile(SampleProfiles.ThreeIsos(), _folder.File("a.json"), Token);
        await File.WriteAllTextAsync(_folder.File("b.json"), "{\"format\": \"sensorlab-profile\"", Token);

        CommandRun added = await RunAsync("shelf", "add", _folder.File("b.json"), _folder.File("a.json"), _folder.File("none.json"));

        Assert.Equal(4, added.Status);
        Assert.Contains("2 files left out", added.Error, StringComparison.Ordinal);
        Assert.Single((await ListAsync())["bodies"]!.AsArray());
    }

    [Fact]
    public async Task ShelfBody_WhereProfileStands_IsTheNewestProfile()
    {
        SensorProfile later = OfBody("20417") with { CreatedUtc = new DateTimeOffset(2026, 9, 1, 8, 0, 0, TimeSpan.Zero) };
        SensorProfileWriter.WriteFile(SampleProfiles.ThreeIsos(), _folder.File("a.json"), Token);
        SensorProfileWriter.WriteFile(later with { IsoProfiles = [later.IsoProfiles[0]] }, _folder.File("b.json"), Token);
        Assert.Equal(0, (await RunAsync("shelf", "add", _folder.File("b.json"), _folder.File("a.json"))).Status);

        CommandRun placed = await RunAsync("place", "shelf:20417", "--iso", "100", "--tone", "2");
        CommandRun unmeasured = await RunAsync("place", "shelf:20417", "--iso", "400", "--tone", "2");
        CommandRun compared = await RunAsync("retest", _folder.File("a.json"), "shelf:LM-2");
        CommandRun unknown = await RunAsync("place", "shelf:99", "--iso", "100", "--tone", "2");

        Assert.Equal((0, 3, 2), (placed.Status, unmeasured.Status, unknown.Status));
        Assert.Contains("from the shelf: Larkmoor LM-2 20417, firmware 1.1, 1 Sep 2026", placed.Error, StringComparison.Ordinal);
        Assert.Equal(0, compared.Status);
        Assert.Contains("Larkmoor LM-2 20417", unknown.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task History_OfABody_TellsVerdictsInTextAndDocument()
    {
        SensorProfileWriter.WriteFile(SampleProfiles.ThreeIsos(), _folder.File("a.json"), Token);
        SensorProfileWriter.WriteFile(SampleProfiles.ThreeIsos() with { CreatedUtc = new DateTimeOffset(2026, 9, 1, 8, 0, 0, TimeSpan.Zero) }, _folder.File("b.json"), Token);
        await RunAsync("shelf", "add", _folder.File("a.json"), _folder.File("b.json"));

        CommandRun text = await RunAsync("shelf", "history", "--iso", "400", "--figure", "readNoiseElectron");
        CommandRun json = await RunAsync("shelf", "history", "--iso", "400", "--figure", "readNoiseElectron", "--json");
        CommandRun none = await RunAsync("shelf", "history", "--iso", "50");
        CommandRun stops = await RunAsync("shelf", "history", "--iso", "400");
        Assert.Matches(@"firmware 1\.1    \+\d\.\d\d ±0\.\d\d ", stops.Output);
        Assert.Contains("ISO 400, clip above grey (EV)\n", stops.Output, StringComparison.Ordinal);
        Assert.Contains("fewer than 4 bodies none can be said to stand out.", (await RunAsync("shelf", "model")).Output.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Matches(@"firmware 1\.1    -\d\.\d\d ±0\.\d\d ", stops.Output);
        Assert.Equal(0, (await RunAsync("shelf", "history", "--out", _folder.File("history.html"))).Status);
        Assert.Equal(0, (await RunAsync("shelf", "model", "--out", _folder.File("model.html"))).Status);
        Assert.Equal(4, (await RunAsync("shelf", "model", "--out", _folder.File("none/model.html"))).Status);
        string page = await File.ReadAllTextAsync(_folder.File("history.html"), Token);
        Assert.Contains("<svg", page, StringComparison.Ordinal);
        Assert.Contains("equivalent", page, StringComparison.Ordinal);
        Assert.Contains("stands out does so by chance", await File.ReadAllTextAsync(_folder.File("model.html"), Token), StringComparison.Ordinal);

        Assert.Equal((0, 2), (text.Status, none.Status));
        Assert.Contains("ISO 400, read noise (e⁻), G1\n  18 Apr 2026  firmware 1.1    2.600 ±0.040\n  1 Sep 2026   firmware 1.1    2.600 ±0.040      equivalent\n", text.Output, StringComparison.Ordinal);
        JsonNode point = JsonNode.Parse(json.Output)!["courses"]![1]!["points"]![1]!;
        Assert.Equal("equivalent", (string?)point["verdict"]);
        Assert.Equal(0.05, (double?)point["margin"]);
    }

    [Fact]
    public async Task List_Figure_IsListedWithEveryProfileThatHoldsIt()
    {
        SensorProfile without = OfBody("20418");
        SensorProfileWriter.WriteFile(SampleProfiles.ThreeIsos(), _folder.File("a.json"), Token);
        SensorProfileWriter.WriteFile(without with { IsoProfiles = [without.IsoProfiles[0]] }, _folder.File("b.json"), Token);
        SensorProfileWriter.WriteFile(SampleProfiles.Bounds() with { Body = new BodyIdentity("Larkmoor", "LM-2", "20419", "1.1") }, _folder.File("c.json"), Token);
        await RunAsync("shelf", "add", _folder.File("a.json"), _folder.File("b.json"), _folder.File("c.json"));

        CommandRun text = await RunAsync("shelf", "list", "--iso", "400", "--figure", "readNoiseElectron");
        CommandRun json = await RunAsync("shelf", "list", "--figure", "aboveEv", "--json");
        CommandRun none = await RunAsync("shelf", "list", "--figure", "readNoise");

        Assert.Equal((0, 0, 2), (text.Status, json.Status, none.Status));
        Assert.Contains("\n               read noise (e⁻), G1, ISO 400: 2.600 ±0.040\n", text.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("20418", text.Output, StringComparison.Ordinal);
        Assert.Contains("no profile that is listed holds the figure readNoise.", none.Error, StringComparison.Ordinal);
        foreach (JsonNode? body in JsonNode.Parse(json.Output)!["bodies"]!.AsArray())
        {
            JsonNode profile = body!["profiles"]![0]!;
            SensorProfile kept = SensorProfileReader.ReadFile((string)profile["file"]!);
            Assert.Equal(
                kept.IsoProfiles.Select(i => (i.Iso, i.Latitude.AboveEv!.OfBody().Lower95, i.Latitude.AboveEv!.AtLeast)),
                profile["figures"]!.AsArray().Where(f => f!["channel"] is null).Select(f => ((int)f!["iso"]!, (double?)f["value"]!["lower95"], (double?)f["value"]!["atLeast"])));
        }
    }

    [Fact]
    public async Task Shelf_OfTheSettings_IsTheOneThatIsUsedAndMustBeThere()
    {
        SensorProfileWriter.WriteFile(SampleProfiles.ThreeIsos(), _folder.File("a.json"), Token);
        await RunAsync("settings", "shelf", _folder.File("team"));

        Assert.Equal(4, (await RunAsync("shelf", "list")).Status);
        Assert.Equal(0, (await RunAsync("shelf", "add", _folder.File("a.json"))).Status);

        Assert.Single(Directory.GetFiles(_folder.File("team/profiles"), "*.json"));
        Assert.Equal(0, (await RunAsync("place", "shelf:20417", "--iso", "100", "--tone", "2")).Status);
        Assert.Equal(4, (await RunAsync("shelf", "list", "--shelf", _folder.File("none"))).Status);
    }

    [Fact]
    public async Task RebuildAndExport_OfAShelf_AreWhole()
    {
        SensorProfileWriter.WriteFile(SampleProfiles.ThreeIsos(), _folder.File("a.json"), Token);
        await RunAsync("shelf", "add", _folder.File("a.json"));
        await File.WriteAllTextAsync(_folder.File("shelf/shelf.duckdb"), "damaged", Token);

        CommandRun damaged = await RunAsync("shelf", "list");
        CommandRun rebuilt = await RunAsync("shelf", "rebuild");
        CommandRun exported = await RunAsync("shelf", "export", "--out", _folder.File("out"));

        Assert.Equal(4, damaged.Status);
        Assert.Contains("sensorlab shelf rebuild", damaged.Error, StringComparison.Ordinal);
        Assert.Equal((0, 0), (rebuilt.Status, exported.Status));
        Assert.Contains("1 profile in the index", rebuilt.Output, StringComparison.Ordinal);
        Assert.True(File.Exists(_folder.File("out/level/maker=Larkmoor/model=LM-2/part-0.parquet")));
    }

    [Fact]
    public async Task Measure_FoldersOfSets_TakesEachOnceGoesOnAfterFailuresAndTellsWhy()
    {
        foreach (string role in new[] { "house/a/dark", "house/deep/b/bracket", "house/c/metered", "house/notes" })
        {
            Directory.CreateDirectory(_folder.File(role));
        }

        Workbench house = Workbench with
        {
            Characterise = (set, _, _, _) => Path.GetFileName(set) switch
            {
                "b" => throw new FrameSetRefusedException([new Finding { Code = FindingCode.MeteredMissing, Severity = FindingSeverity.Refusal, Message = "No frame defines middle grey.", Remedy = "Shoot one." }]),
                var name => Task.FromResult(OfBody(name == "a" ? "20417" : "20418")),
            },
        };

        CommandRun first = await CommandRun.OfAsync(house, "shelf", "measure", _folder.File("house"));
        CommandRun again = await CommandRun.OfAsync(house, "shelf", "measure", _folder.File("house"));
        File.Delete(Directory.GetFiles(_folder.File("shelf/profiles"))[0]);
        CommandRun repaired = await CommandRun.OfAsync(house, "shelf", "measure", _folder.File("house"));
        await File.WriteAllTextAsync(_folder.File("house/a/dark/another.dng"), "x", Token);
        CommandRun grown = await CommandRun.OfAsync(house, "shelf", "measure", _folder.File("house"), "--snr", "7");

        Assert.Equal((3, 3), (first.Status, again.Status));
        Assert.Contains("3 sets: 2 measured, 1 failed.", first.Output, StringComparison.Ordinal);
        Assert.Contains("metered-missing: No frame defines middle grey.", first.Output, StringComparison.Ordinal);
        Assert.Contains("3 sets: 2 there already, 1 failed.", again.Output, StringComparison.Ordinal);
        Assert.Contains("1 measured", repaired.Output, StringComparison.Ordinal);
        Assert.Contains("2 measured", grown.Output, StringComparison.Ordinal);
        Assert.Equal(2, (await ListAsync())["bodies"]!.AsArray().Count);
    }

    [Fact]
    public async Task Measure_SetThatBreaksTheProgram_IsNamedAndTheOthersGoOn()
    {
        Directory.CreateDirectory(_folder.File("house/a/dark"));
        Directory.CreateDirectory(_folder.File("house/b/dark"));
        Workbench house = Workbench with { Characterise = (set, _, _, _) => set.EndsWith('a') ? throw new InvalidOperationException("broken") : Task.FromResult(OfBody("20418")) };

        CommandRun run = await CommandRun.OfAsync(house, "shelf", "measure", _folder.File("house"));

        Assert.Equal(1, run.Status);
        Assert.Contains("2 sets: 1 failed, 1 measured.", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Shelf_WordThatIsOff_IsAnsweredByTheShelfsOwnWords()
    {
        CommandRun run = await RunAsync("shelf", "lisst");

        Assert.Equal(2, run.Status);
        Assert.Contains("did you mean list?", run.Error, StringComparison.Ordinal);
    }

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private static SensorProfile OfBody(string serialNumber) => SampleProfiles.ThreeIsos() with { Body = new BodyIdentity("Larkmoor", "LM-2", serialNumber, "1.1") };

    private Task<CommandRun> RunAsync(params string[] words) => CommandRun.OfAsync(Workbench, words);

    private async Task<JsonNode> ListAsync() => JsonNode.Parse((await RunAsync("shelf", "list", "--json")).Output)!;
}
