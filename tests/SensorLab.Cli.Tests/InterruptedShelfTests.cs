using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>
/// Runs that add to a shelf or measure onto it, killed at moments spread over their time, two at once, or stopped by a disk that
/// takes no more: no profile is lost that a run had said was taken in, none is there twice, and the next run ends the work.
/// </summary>
public sealed class InterruptedShelfTests : IDisposable
{
    private const string WriteVariable = "SENSORLAB_WRITE_RESULTS";
    private const int Moments = 100;
    private const int Rounds = 10;
    private const int Killed = 137;
    private const int Profiles = 12;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Add_Killed_LosesNothingAndKeepsNothingTwice() => await KillAddsAsync(moments: 2);

    [Fact]
    [Trait("Category", "Study")]
    public async Task Add_KilledAHundredTimes_LosesNothingAndKeepsNothingTwice()
    {
        int killed = await KillAddsAsync(Moments);
        Report("`shelf add` killed", $"{Count(Moments)} runs from an empty shelf, stopped at moments spread over their time: {Count(killed)} killed, the rest done before. Each time the shelf held whole profiles alone, each once; the next run took in the rest.");
    }

    [Fact]
    [Trait("Category", "Study")]
    public async Task Measure_KilledAHundredTimes_GoesOnAndKeepsEachSetOnce()
    {
        Directory.CreateDirectory(_folder.File("house"));
        for (int set = 0; set < 3; set++)
        {
            Assert.Equal(0, (await RunAsync("exec", "rehearse", $"house/set{set}", "--iso", "400", "--pixels", "64x48", "--seed", $"{set}")).Status);
        }

        string[] words = ["shelf", "measure", "house", "--shelf", "shelf"];
        TimeSpan whole = await TimeAsync(words);
        Directory.Delete(_folder.File("shelf"), recursive: true);
        int left = Moments;
        int killed = 0;
        while (left > 0)
        {
            // Each time from an empty shelf: killed until it is done.
            for (int status = Killed; status == Killed && left > 0; left--)
            {
                string seconds = Seconds(whole * ((left % 10) + 1) / 11);
                (status, _) = await RunAsync($"exec timeout -s KILL {seconds}", words);
                Assert.True(status is Killed or 0 or 3, $"status {status}");
                killed += status == Killed ? 1 : 0;
                await JudgeAsync(most: 3);
            }

            Assert.Contains((await RunAsync("exec", words)).Status, new[] { 0, 3 });
            await JudgeAsync(least: 3, most: 3);
            Directory.Delete(_folder.File("shelf"), recursive: true);
        }

        Report("`shelf measure` killed", $"{Count(Moments)} runs over three sets, each going on with what the one before left: {Count(killed)} killed, the rest done before. Each set was on the shelf once at the end.");
    }

    [Fact]
    [Trait("Category", "Study")]
    public async Task Add_FullDisk_KeepsWhatWasThereAndSaysSo()
    {
        string[] words = Words("in");
        WriteProfiles("first", 0);
        WriteProfiles("in", 1);
        Assert.Equal(0, (await RunAsync("exec", Words("first"))).Status);
        FolderCopy.Of(_folder.File("shelf"), _folder.File("before"));
        Assert.Equal(0, (await RunAsync("exec", words)).Status);
        long room = await RoomAsync(words);
        int refused = 0;
        for (int moment = 0; moment < Moments; moment++)
        {
            (int status, string told) = await RunOnFullDiskAsync(room * moment / Moments, words);

            // The index is not of one size to the byte: the widest limits may let it pass.
            Assert.True(status is 4 or 0, $"status {status}: {told}");
            refused += status == 4 ? 1 : 0;
            await JudgeAsync(least: status == 0 ? 2 * Profiles : Profiles, most: 2 * Profiles);
            Assert.Equal(0, (await RunAsync("exec", words)).Status);
            await JudgeAsync(least: 2 * Profiles, most: 2 * Profiles);
        }

        Assert.True(refused > Moments / 2, $"{refused} of {Moments} were refused");
        Report("`shelf add` on a full disk", $"{Count(Moments)} limits of a file's size, from nothing to what lets it pass: {Count(refused)} runs ended with status 4 and said so, the others had room; what was there before stayed, the next run took in the rest.");
    }

    // The least limit, in KiB, that lets a run pass, to a hundredth of the largest file.
    private async Task<long> RoomAsync(string[] words)
    {
        long enough = Directory.EnumerateFiles(_folder.File("shelf"), "*", SearchOption.AllDirectories).Max(f => new FileInfo(f).Length) / 1024;
        long step = Math.Max(1, enough / Moments);
        for (long few = 0; enough - few > step;)
        {
            long middle = (few + enough) / 2;
            bool passes = (await RunOnFullDiskAsync(middle, words)).Status == 0;
            (few, enough) = passes ? (few, middle) : (middle, enough);
        }

        return enough;
    }

    private async Task<(int Status, string Told)> RunOnFullDiskAsync(long kibibytes, string[] words)
    {
        Directory.Delete(_folder.File("shelf"), recursive: true);
        FolderCopy.Of(_folder.File("before"), _folder.File("shelf"));
        return await RunAsync($"trap '' XFSZ; ulimit -f {kibibytes}; exec", words);
    }

    [Fact]
    [Trait("Category", "Study")]
    public async Task Add_TwoProcessesAtOnce_KeepEachOnce()
    {
        WriteProfiles("in", 0);
        WriteProfiles("also", 1);
        for (int round = 0; round < Rounds; round++)
        {
            Directory.CreateDirectory(_folder.File("shelf"));
            (int Status, string Told)[] runs = await Task.WhenAll(RunAsync("exec", Words("in", "also")), RunAsync("exec", Words("also", "in")));
            Assert.All(runs, run => Assert.True(run.Status == 0, run.Told));
            await JudgeAsync(least: 2 * Profiles, most: 2 * Profiles);
            Directory.Delete(_folder.File("shelf"), recursive: true);
        }

        Report("Two `shelf add` at once", $"{Count(Rounds)} times, of the same profiles: both ended well, each profile was there once.");
    }

    private async Task<int> KillAddsAsync(int moments)
    {
        int killed = 0;
        WriteProfiles("in", 0);
        TimeSpan whole = await TimeAsync(Words("in"));
        for (int moment = 0; moment < moments; moment++)
        {
            Directory.Delete(_folder.File("shelf"), recursive: true);
            Directory.CreateDirectory(_folder.File("shelf"));
            (int status, _) = await RunAsync($"exec timeout -s KILL {Seconds(whole * (moment + 1) / (moments + 1))}", Words("in"));
            Assert.True(status is Killed or 0, $"status {status}");
            killed += status == Killed ? 1 : 0;
            await JudgeAsync(least: status == 0 ? Profiles : 0, most: Profiles);
            Assert.Equal(0, (await RunAsync("exec", Words("in"))).Status);
            await JudgeAsync(least: Profiles, most: Profiles);
        }

        return killed;
    }

    private static void Report(string part, string words)
    {
        if (Environment.GetEnvironmentVariable(WriteVariable) is not null)
        {
            StudyResults.Write("tests/SensorLab.Shelf.Tests", part, "bash tests/studies.sh shelf", words);
        }
    }

    private static string Count(int count) => count.ToString(CultureInfo.InvariantCulture);

    // What the shelf says of itself and what lies in its folder are the same profiles, each sound and once.
    private async Task JudgeAsync(int most, int least = 0)
    {
        string shelf = _folder.File("shelf");
        if (!Directory.Exists(shelf))
        {
            return;
        }

        (int status, string told) = await RunAsync("exec", "shelf", "list", "--json", "--shelf", "shelf");
        Assert.True(status == 0, told);
        string[] listed = [.. JsonNode.Parse(told)!["bodies"]!.AsArray().SelectMany(b => b!["profiles"]!.AsArray()).Select(p => (string)p!["profile"]!).Order(StringComparer.Ordinal)];
        string profiles = Path.Combine(shelf, "profiles");
        string[] lying = Directory.Exists(profiles) ? [.. Directory.GetFiles(profiles, "*.json").Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal)] : [];
        Assert.Equal(lying, listed);
        Assert.InRange(listed.Length, least, most);
    }

    private async Task<TimeSpan> TimeAsync(string[] words)
    {
        var watch = Stopwatch.StartNew();
        Assert.Contains((await RunAsync("exec", words)).Status, new[] { 0, 3 });
        return watch.Elapsed;
    }

    private void WriteProfiles(string folder, int bodies)
    {
        Directory.CreateDirectory(_folder.File(folder));
        for (int i = 0; i < Profiles; i++)
        {
            SensorProfile profile = SampleProfiles.ThreeIsos();
            string number = (20000 + (100 * bodies) + i).ToString(CultureInfo.InvariantCulture);
            SensorProfileWriter.WriteFile(profile with { Body = profile.Body with { SerialNumber = number } }, _folder.File($"{folder}/{number}.json"));
        }
    }

    private static string[] Words(params string[] folders) => ["shelf", "add", .. folders, "--shelf", "shelf"];

    private static string Seconds(TimeSpan time) => time.TotalSeconds.ToString("F3", CultureInfo.InvariantCulture);

    private async Task<(int Status, string Told)> RunAsync(string shell, params string[] words)
    {
        var start = new ProcessStartInfo("bash", ["-c", $"{shell} dotnet {Path.Combine(AppContext.BaseDirectory, "SensorLab.Cli.dll")} {string.Join(' ', words)}"])
        {
            WorkingDirectory = _folder.Path,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };

        // The runtime's second view of its own code is a file of the system's, and counts against the limit.
        start.Environment["DOTNET_EnableWriteXorExecute"] = "0";
        using Process program = Process.Start(start)!;
        Task<string> error = program.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        string output = await program.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        string told = await error;
        await program.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (program.ExitCode, output.Length > 0 ? output : told);
    }
}
