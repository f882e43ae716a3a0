using System.Diagnostics;
using System.Text.Json.Nodes;
using SensorLab.Profiles;
using SensorLab.Retest;
using SensorLab.TestData;

namespace SensorLab.Shelf.Tests;

/// <summary>The export, read by DuckDB as anybody's files.</summary>
public sealed class ParquetExportTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Out => _folder.File("out");

    [Fact]
    public async Task Export_Figures_AreThoseOfTheProfilesToTheLastBit()
    {
        SensorProfile[] profiles = [SampleProfiles.ThreeIsos(), SampleProfiles.Bounds(), SampleProfiles.Monochrome()];
        await ExportAsync(profiles);

        foreach (SensorProfile profile in profiles)
        {
            List<object?[]> rows = DuckDbRows.Of($"select iso, channel, figure, value, standard_uncertainty, lower95, upper95, bound from '{Out}/iso_figure/*/*/*.parquet' where profile = '{ShelfDocument.Of(profile).Key}'");

            Assert.Equal(
                ProfileFigures.Of(profile, withDelivery: true).Select(f => Row(f.Key, f.Value)).Order(StringComparer.Ordinal),
                rows.Select(r => string.Join('|', r.Select(Text))).Order(StringComparer.Ordinal));
        }

        Assert.Equal(0L, DuckDbRows.Of($"select count(*) from '{Out}/iso_figure/*/*/*.parquet' where bound is not null and value is not null")[0][0]);
    }

    /// <summary>Told by the documents themselves: a figure that a later version adds to them is not forgotten here.</summary>
    [Fact]
    public async Task Export_Figures_AreAllThatChannelsAndLooksHold()
    {
        Figure figure = SampleProfiles.Measured(1, 0.1, 10);
        SensorProfile sample = SampleProfiles.ThreeIsos();
        IsoProfile iso = sample.IsoProfiles[0];
        SensorProfile full = sample with
        {
            IsoProfiles =
            [
                iso with
                {
                    Channels = [.. iso.Channels.Select(c => c with { CompressionPercent = figure })],
                    Previews = [.. iso.Previews.Select(p => p with { HiddenShadowEv = figure })],
                },
            ],
        };
        await ExportAsync(full);

        JsonObject written = JsonNode.Parse(ShelfDocument.Of(full).Bytes.Span)!["isoProfiles"]![0]!.AsObject();
        IEnumerable<string> held = NamesOf(written["channels"]![0]!, string.Empty).Concat(NamesOf(written["previews"]![0]!, $"previews.{iso.Previews[0].Look}."));
        string[] exported = [.. DuckDbRows.Of($"select distinct figure from '{Out}/iso_figure/*/*/*.parquet'").Select(r => (string)r[0]!)];
        Assert.Empty(held.Except(exported));
        Assert.Contains("compressionPercent", exported);
        Assert.Contains($"previews.{iso.Previews[0].Look}.hiddenShadowEv", exported);

        static IEnumerable<string> NamesOf(JsonNode part, string prefix) =>
            part.AsObject().Where(p => p.Value is JsonObject value && (value.ContainsKey("standardUncertainty") || value.ContainsKey("atLeast") || value.ContainsKey("atMost"))).Select(p => prefix + p.Key);
    }

    [Fact]
    public async Task Export_Levels_AreThoseOfTheProfiles()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        await ExportAsync(profile);

        List<object?[]> rows = DuckDbRows.Of($"select iso, level, channel, mean_dn, temporal_variance_dn2, ev, used_in_fit from '{Out}/level/*/*/*.parquet' order by iso, level");

        Assert.Equal(
            profile.IsoProfiles.SelectMany(i => i.Levels.SelectMany((l, n) => l.Channels.Select(c => string.Join('|', new object?[] { i.Iso, n, c.Name, c.MeanDn, c.TemporalVarianceDn2, l.Ev, c.UsedInFit ? 1 : 0 }.Select(Text))))).Order(StringComparer.Ordinal),
            rows.Select(r => string.Join('|', r.Select(Text))).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Export_Types_ArePlainAndPartitionsAreMakerAndModel()
    {
        await ExportAsync(SampleProfiles.ThreeIsos());

        string[] tables = ["body", "profile", "iso_figure", "level", "finding"];
        Assert.Empty(tables.SelectMany(t => DuckDbRows.Of($"describe select * from '{Out}/{t}/*/*/*.parquet'").Select(r => (string)r[1]!)).Distinct().Except(["VARCHAR", "INTEGER", "DOUBLE", "TIMESTAMP"]));
        Assert.All(tables, table => Assert.True(File.Exists(Path.Combine(Out, table, "maker=Larkmoor", "model=LM-2", "part-0.parquet"))));
        Assert.Equal(new DateTime(2026, 4, 18, 9, 30, 0), DuckDbRows.Of($"select created_utc from '{Out}/profile/*/*/*.parquet'")[0][0]);
    }

    [Fact]
    public async Task Export_HostileNamesOfMakerAndModel_StayFoldersOfTheTable()
    {
        string endless = string.Concat(Enumerable.Repeat("日", 60));
        await ExportAsync(
            SampleProfiles.HostileStrings(),
            SampleProfiles.ThreeIsos() with { Body = new BodyIdentity("../../x", endless, "1", null) },
            SampleProfiles.ThreeIsos() with { Body = new BodyIdentity("", null, "2", null) });

        Assert.Equal(["SHELF-EXPORT.txt", "body", "finding", "iso_figure", "level", "profile"], Directory.EnumerateFileSystemEntries(Out).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Equal(3, Directory.GetDirectories(Path.Combine(Out, "profile")).Length);
        Assert.All(Directory.GetDirectories(Out, "*=*", SearchOption.AllDirectories), folder => Assert.Matches("^(maker|model)=[A-Za-z0-9._-]{1,60}$", Path.GetFileName(folder)));
        Assert.True(Directory.Exists(Path.Combine(Out, "profile", "maker=unknown", "model=unknown")));
        Assert.Contains(DuckDbRows.Of($"select model_name from '{Out}/body/*/*/*.parquet'"), r => (string?)r[0] == endless);
        Assert.Equal(3L, DuckDbRows.Of($"select count(*) from read_parquet('{Out}/profile/*/*/*.parquet', hive_partitioning = true) where maker is not null")[0][0]);
    }

    [Fact]
    public async Task Export_ModelsThatDifferInCaseAlone_ShareAFolderAndLoseNothing()
    {
        await ExportAsync(
            SampleProfiles.ThreeIsos(),
            SampleProfiles.ThreeIsos() with { Body = new BodyIdentity("LARKMOOR", "lm-2", "1", null) });

        Assert.Equal(["maker=LARKMOOR"], Directory.GetDirectories(Path.Combine(Out, "profile")).Select(Path.GetFileName));
        Assert.Equal(2L, DuckDbRows.Of($"select count(*) from '{Out}/profile/*/*/*.parquet'")[0][0]);
    }

    /// <summary>Every figure of an export, as Node reads it with a library that shares nothing with DuckDB.</summary>
    [Fact]
    public async Task Export_ReadByNode_HoldsTheProfilesFigures()
    {
        SensorProfile[] profiles = [SampleProfiles.ThreeIsos(), SampleProfiles.Bounds(), .. Enumerable.Range(0, 4).Select(body => new SimulatedFleet().Profile(body, 0))];
        await ExportAsync(profiles);

        JsonObject[] rows = [.. (await NodeAsync("read-parquet.mjs", Path.Combine(Out, "iso_figure"))).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonNode.Parse(line)!.AsObject())];

        Assert.True(rows.Length >= 1000);
        Assert.Equal(
            profiles.Select(ShelfDocument.Of).SelectMany(d => ProfileFigures.Of(d.Profile, withDelivery: true).Select(f => $"{d.Key}|{Row(f.Key, f.Value)}")).Order(StringComparer.Ordinal),
            rows.Select(r => string.Join('|', [(string)r["profile"]!, .. new object?[]
            {
                (int)r["iso"]!, (string?)r["channel"], (string)r["figure"]!, (double?)r["value"], (double?)r["standard_uncertainty"], (double?)r["lower95"], (double?)r["upper95"], (string?)r["bound"],
            }.Select(Text)])).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Export_Again_ReplacesTheEarlierWithTheSameBytesAndNothingElse()
    {
        await ExportAsync(SampleProfiles.ThreeIsos(), SampleProfiles.Bounds());
        Dictionary<string, byte[]> first = FilesBelow(Out);
        Directory.CreateDirectory(_folder.File("mine"));
        await File.WriteAllTextAsync(_folder.File("mine/work.txt"), "work", Token);

        new ProfileShelf(_folder.File("shelf")).Export(Out, Token);
        Assert.Throws<IOException>(() => new ProfileShelf(_folder.File("shelf")).Export(_folder.File("mine"), Token));

        Assert.Equal(first, FilesBelow(Out));
        Assert.Equal("work", await File.ReadAllTextAsync(_folder.File("mine/work.txt"), Token));
    }

    private async Task ExportAsync(params SensorProfile[] profiles)
    {
        var shelf = new ProfileShelf(_folder.File("shelf"));
        await shelf.AddAsync([.. profiles.Select(p => new ShelfCandidate("a profile", _ => ShelfDocument.Of(p)))], new Progress<int>(), Token);
        Assert.Empty(shelf.Export(Out, Token));
    }

    private static async Task<string> NodeAsync(string script, string argument)
    {
        string tools = Path.Combine(Repository.Root, "tests", "OtherTools");
        var start = new ProcessStartInfo("node", [Path.Combine(tools, script), argument]) { WorkingDirectory = tools, RedirectStandardOutput = true, RedirectStandardError = true };
        using Process node = Process.Start(start)!;
        Task<string> error = node.StandardError.ReadToEndAsync(Token);
        string output = await node.StandardOutput.ReadToEndAsync(Token);
        await node.WaitForExitAsync(Token);
        Assert.True(node.ExitCode == 0, await error);
        return output;
    }

    private static Dictionary<string, byte[]> FilesBelow(string folder) =>
        Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).ToDictionary(f => Path.GetRelativePath(folder, f), File.ReadAllBytes);

    private static string Row(FigureAddress at, Figure f) => string.Join('|', new object?[]
    {
        at.Iso, at.Channel, at.Name, f.Value, f.StandardUncertainty, f.Lower95 ?? f.AtLeast, f.Upper95 ?? f.AtMost, f.AtLeast is not null ? "atLeast" : f.AtMost is not null ? "atMost" : null,
    }.Select(Text));

    private static string Text(object? value) => value is double number ? BitConverter.DoubleToInt64Bits(number).ToString("x16", System.Globalization.CultureInfo.InvariantCulture) : FormattableString.Invariant($"{value}");
}
