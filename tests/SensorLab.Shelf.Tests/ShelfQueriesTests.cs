using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using SensorLab.TestData;

namespace SensorLab.Shelf.Tests;

/// <summary>The queries of <c>protocols/shelf-queries</c> on an export: what they must find, and two engines that agree.</summary>
public sealed class ShelfQueriesTests(ExportedFleet fleet) : IClassFixture<ExportedFleet>
{
    // Engines add up in their own order.
    private const double Rounding = 1e-9;

    private const int Bodies = ExportedFleet.Bodies;
    private const int Sets = ExportedFleet.Sets;
    private const int Drifting = ExportedFleet.Drifting;

    public static TheoryData<string> Queries => [.. Directory.GetFiles(Path.Combine(Repository.Root, "protocols", "shelf-queries"), "*.sql").Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal)];

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [MemberData(nameof(Queries))]
    public void Query_OnDuckDb_FindsWhatIsTrue(string name)
    {
        List<object?[]> rows = OnDuckDb(fleet.Export, name);

        switch (name)
        {
            case "newest-profiles":
                Assert.Equal(Bodies, rows.Count);
                break;
            case "drifts":
                Assert.Equal(2, rows.Count);
                Assert.All(rows, r => Assert.Equal((20000 + Drifting).ToString(CultureInfo.InvariantCulture), r[2]));
                Assert.All(rows, r => Assert.InRange((double)r[5]!, 1.2, 1.3));
                break;
            case "spread":
                Assert.Equal(3 * 2 * 4, rows.Count);
                Assert.All(rows, r => Assert.Equal((long)Bodies / 3, r[4]));
                break;
            case "latitude":
                Assert.Equal(Bodies * Sets * 2, rows.Count);
                Assert.All(rows, r => Assert.Equal((double)r[5]! + (double)r[6]!, (double)r[7]!, 12));
                break;
            case "photon-transfer":
                Assert.Equal(Bodies * Sets * 2 * 4, rows.Count);
                Assert.All(rows, r => Assert.InRange((double)r[4]!, 0.98 * FleetDocuments.DnPerElectron, 1.02 * FleetDocuments.DnPerElectron));
                break;
            default:
                Assert.Fail($"No truth is known of {name}.");
                break;
        }
    }

    /// <summary>The ClickHouse engine, from npm: half a gigabyte, and so a study.</summary>
    [Theory]
    [Trait("Category", "Study")]
    [MemberData(nameof(Queries))]
    public async Task Query_OnTwoEngines_GivesTheSame(string name)
    {
        string engines = Path.Combine(Repository.Root, "tests", "OtherTools", "engines");
        if (!Directory.Exists(Path.Combine(engines, "node_modules")))
        {
            // Its lock holds the library of one system, and some versions of npm ci want all.
            await RunAsync("npm", engines, "install", "--no-save", "--silent", "--ignore-scripts");
        }

        List<object?[]> expected = OnDuckDb(fleet.Export, name);
        JsonArray found = JsonNode.Parse(await RunAsync("node", engines, "query.mjs", fleet.Export, QueryPath(name)))!["data"]!.AsArray();

        Assert.NotEmpty(expected);
        Assert.Equal(expected.Count, found.Count);
        for (int row = 0; row < expected.Count; row++)
        {
            for (int column = 0; column < expected[row].Length; column++)
            {
                JsonNode? cell = found[row]![column];
                if (expected[row][column] is double number)
                {
                    Assert.Equal(number, (double)cell!, Rounding * Math.Max(1, Math.Abs(number)));
                }
                else
                {
                    Assert.Equal(string.Create(CultureInfo.InvariantCulture, $"{expected[row][column]}"), cell?.ToString() ?? string.Empty);
                }
            }
        }
    }

    private static string QueryPath(string name) => Path.Combine(Repository.Root, "protocols", "shelf-queries", name + ".sql");

    private static List<object?[]> OnDuckDb(string export, string name) => DuckDbRows.Of(
        File.ReadAllText(QueryPath(name)),
        before: new[] { "body", "profile", "iso_figure", "level", "finding" }.Select(table => $"create view {table} as select * from read_parquet('{export}/{table}/*/*/*.parquet', hive_partitioning = true)"));

    private static async Task<string> RunAsync(string program, string folder, params string[] words)
    {
        var start = new ProcessStartInfo(program, words) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
        using Process process = Process.Start(start)!;
        Task<string> error = process.StandardError.ReadToEndAsync(Token);
        string output = await process.StandardOutput.ReadToEndAsync(Token);
        await process.WaitForExitAsync(Token);
        Assert.True(process.ExitCode == 0, await error);
        return output;
    }
}
