using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>
/// Commands that write over an earlier output, killed at moments spread over their run, or stopped by a disk that takes no
/// more: every file is the old one or the new one, and the next run leaves the new ones whole and nothing else.
/// </summary>
public sealed class InterruptedRunTests : IClassFixture<AttackResults>, IDisposable
{
    private const int Moments = 50;

    /// <summary>A number in place of the fifty moments, for a look at every command in passing.</summary>
    private const string MomentsVariable = "SENSORLAB_MOMENTS";

    /// <summary>Exit status of a run that was killed: 128 + 9.</summary>
    private const int Killed = 137;

    private readonly TemporaryFolder _folder = new();
    private readonly AttackResults _results;

    public InterruptedRunTests(AttackResults results)
    {
        _results = results;
        SensorProfile profile = SampleProfiles.ThreeIsos();
        SensorProfileWriter.WriteFile(profile, _folder.File("old.json"));
        SensorProfileWriter.WriteFile(profile with { Body = profile.Body with { SerialNumber = "31155" }, IsoProfiles = [profile.IsoProfiles[1]] }, _folder.File("new.json"));
    }

    public static TheoryData<string> Commands =>
    [
        "report @.json --out out", "pocket @.json --out out/p.html", "pocket @.json --out out/p.pdf", "publish @.json --out out/b.zip --accept-findings",
        "plan --protocol evening --from @.json --out out", "retest @.json old.json --report out", "target --out out/t.svg",
        "rehearse out/set --iso 400 --pixels 64x48 --seed SEED", "key --out out/k.pem",
        "characterise set-@ --out out/p.json --report out/r", "characterise @.json --out out/p.json --snr 7", "intake set-@ --thumbnail out/t.png", "assign set-@ --metered 1/8@400 --out out/frames.csv",
        "swatch @.json --iso 400 --out out/s.pdf", "debrief @.json set-@ --out out",
    ];

    private static int MomentsAsked => int.TryParse(Environment.GetEnvironmentVariable(MomentsVariable), NumberStyles.None, CultureInfo.InvariantCulture, out int asked) ? asked : Moments;

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Report_Killed_LeavesTheOldOrTheNew() => await KillAsync("report @.json --out out", moments: 2);

    [Fact]
    public async Task Publish_FullDisk_LeavesTheOld() => await FillAsync("publish @.json --out out/b.zip --accept-findings", moments: 2);

    [Theory]
    [MemberData(nameof(Commands))]
    [Trait("Category", "Study")]
    public async Task AnyCommand_Killed_LeavesTheOldOrTheNew(string command) => await KillAsync(command, MomentsAsked);

    [Theory]
    [MemberData(nameof(Commands))]
    [Trait("Category", "Study")]
    public async Task AnyCommand_FullDisk_LeavesTheOld(string command) => await FillAsync(command, MomentsAsked);

    private async Task KillAsync(string command, int moments)
    {
        (Dictionary<string, string> old, Dictionary<string, string> made, TimeSpan time, _) = await BothAsync(command);
        for (int moment = 0; moment < moments; moment++)
        {
            Restore();
            string seconds = (time.TotalSeconds * (moment + 1) / (moments + 1)).ToString("F3", CultureInfo.InvariantCulture);
            int status = await RunAsync($"exec timeout -s KILL {seconds}", command, "new");
            await JudgeAsync($"killed after {seconds} s", status, command, old, made);
            _results.Add("killed", command, status == Killed);
        }
    }

    private async Task FillAsync(string command, int moments)
    {
        (Dictionary<string, string> old, Dictionary<string, string> made, _, long largest) = await BothAsync(command);
        for (int moment = 0; moment < moments; moment++)
        {
            // Files may grow to a part of what the largest one needs: the system then refuses to write on, as a full disk does.
            Restore();
            long blocks = largest * moment / moments / 1024;
            int status = await RunAsync($"trap '' XFSZ; ulimit -f {blocks.ToString(CultureInfo.InvariantCulture)}; exec", command, "new");
            Assert.Equal(ExitStatus.File, status);
            await JudgeAsync($"{blocks} blocks free", status, command, old, made);
            _results.Add("full disk", command, status == ExitStatus.File);
        }
    }

    private async Task<(Dictionary<string, string> Old, Dictionary<string, string> New, TimeSpan Time, long Largest)> BothAsync(string command)
    {
        Directory.CreateDirectory(_folder.File("out"));
        foreach (string which in command.Contains("set-@", StringComparison.Ordinal) ? (string[])["old", "new"] : [])
        {
            Assert.True(IsDone(await RunAsync("exec", $"rehearse set-{which} --iso 400 --pixels 64x48 --seed SEED", which)));

            // Nothing but the body's own profile speaks for its frames.
            Assert.True(!command.StartsWith("debrief", StringComparison.Ordinal) || IsDone(await RunAsync("exec", "characterise set-@ --out @.json", which)));
        }

        // Sets of two seeds are assigned alike.
        if (command.StartsWith("assign", StringComparison.Ordinal))
        {
            File.Delete(Directory.EnumerateFiles(_folder.File("set-new/bracket")).Order(StringComparer.Ordinal).First());
        }

        if (!IsKey(command) && !command.StartsWith("target", StringComparison.Ordinal))
        {
            Assert.True(IsDone(await RunAsync("exec", command, "old")));
        }

        FolderCopy.Of(_folder.File("out"), _folder.File("before"));
        Dictionary<string, string> old = Outputs();
        var watch = Stopwatch.StartNew();
        Assert.True(IsDone(await RunAsync("exec", command, "new")));
        Assert.NotEqual(old, Outputs());
        return (old, Outputs(), watch.Elapsed, LargestOutput());
    }

    // The earlier output as its command left it.
    private void Restore()
    {
        Directory.Delete(_folder.File("out"), recursive: true);
        FolderCopy.Of(_folder.File("before"), _folder.File("out"));
    }

    private async Task JudgeAsync(string what, int status, string command, Dictionary<string, string> old, Dictionary<string, string> made)
    {
        Assert.True(IsDone(status) || status is Killed or ExitStatus.File, $"{command}, {what}: status {status}");
        Dictionary<string, string> left = Outputs();

        // Keys are drawn anew each time and never overwritten: whole is what has both halves.
        if (IsKey(command))
        {
            Assert.True(left.Count is 0 or 2, $"{command}, {what}: {string.Join(", ", left.Keys)}");
            return;
        }

        Assert.All(left, file => Assert.True(old.GetValueOrDefault(file.Key) == file.Value || made.GetValueOrDefault(file.Key) == file.Value, $"{command}, {what}: {file.Key} is torn"));
        Assert.All(old.Keys.Intersect(made.Keys), file => Assert.True(left.ContainsKey(file), $"{command}, {what}: {file} is lost"));
        Assert.True(IsDone(await RunAsync("exec", command, "new")));
        Assert.Equal(made, Outputs());
        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder.Path, ".sensorlab-*", SearchOption.AllDirectories));
    }

    // A re-test's verdict is an end too.
    private static bool IsDone(int status) => status is ExitStatus.Done or ExitStatus.Changed or ExitStatus.Undecided;

    private static bool IsKey(string command) => command.StartsWith("key", StringComparison.Ordinal);

    private long LargestOutput() => Directory.EnumerateFiles(_folder.File("out"), "*", SearchOption.AllDirectories).Max(file => new FileInfo(file).Length);

    // Staging is no output: what a killed run left of it is the next one's to clear.
    private Dictionary<string, string> Outputs() => Directory.EnumerateFiles(_folder.File("out"), "*", SearchOption.AllDirectories)
        .Select(file => Path.GetRelativePath(_folder.Path, file))
        .Where(file => !file.Contains(".sensorlab-", StringComparison.Ordinal))
        .ToDictionary(file => file, file => Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(_folder.File(file)))), StringComparer.Ordinal);

    private async Task<int> RunAsync(string shell, string command, string which)
    {
        // Other signs of the kind stay: a metered setting has one.
        string words = command.Replace("set-@", $"set-{which}", StringComparison.Ordinal).Replace("@.json", $"{which}.json", StringComparison.Ordinal).Replace("SEED", which == "old" ? "1" : "2", StringComparison.Ordinal);
        var start = new ProcessStartInfo("bash", ["-c", $"{shell} dotnet {Path.Combine(AppContext.BaseDirectory, "SensorLab.Cli.dll")} {words}"])
        {
            WorkingDirectory = _folder.Path,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };

        // The runtime's second view of its own code is a file of the system's, and counts against the limit.
        start.Environment["DOTNET_EnableWriteXorExecute"] = "0";
        using Process program = Process.Start(start)!;
        Task<string> output = program.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        _ = await program.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        _ = await output;
        await program.WaitForExitAsync(TestContext.Current.CancellationToken);
        return program.ExitCode;
    }
}
