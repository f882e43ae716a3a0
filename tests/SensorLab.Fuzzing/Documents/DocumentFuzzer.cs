using System.Diagnostics;
using System.Globalization;
using System.IO.Compression;
using System.Text;
using SensorLab.Cli;
using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Fuzzing.Documents;

/// <summary>Puts unsound documents through every command that reads them, inside this process.</summary>
/// <remarks>
/// A command owes any document one of the contract's statuses but 1, an end within ten seconds, no sign on either stream that
/// steers a terminal, and no file but those that it names.
/// </remarks>
internal sealed class DocumentFuzzer : IDisposable
{
    // Of the processor or of the clock, whichever is less: a busy machine is no fault of a command's.
    private const double MostSeconds = 10;
    private const string Space = "in";

    private static readonly TimeSpan Hang = TimeSpan.FromMinutes(15);

    private static readonly int[] Statuses = [0, 2, 3, 4, 5, 6, 7];

    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-fuzz-").FullName;
    private readonly DocumentMutator _mutator;
    private readonly Random _random;
    private readonly (string Name, string Text, string[][] Commands)[] _documents;
    private readonly byte[] _bundle;

    /// <summary>Makes the sound documents.</summary>
    /// <param name="seed">The same seed gives the same documents and commands.</param>
    public DocumentFuzzer(int seed)
    {
        _mutator = new DocumentMutator(seed);
        _random = new Random(seed);
        Directory.CreateDirectory(PathOf(Space));
        SensorProfile profile = SampleProfiles.ThreeIsos();
        SensorProfile one = profile with { IsoProfiles = [profile.IsoProfiles[1]] };
        SensorProfileWriter.WriteFile(one, PathOf("sound.json"));
        Run("rehearse", PathOf("set"), "--iso", "400", "--pixels", "64x48");
        Run("plan", "--protocol", "evening", "--iso", "400", "--out", PathOf("plan"));
        Run("publish", PathOf("sound.json"), "--accept-findings", "--out", PathOf("sound.zip"));
        Run("characterise", PathOf("set"), "--out", PathOf("fitted.json"));
        _bundle = File.ReadAllBytes(PathOf("sound.zip"));
        _documents =
        [
            ("profile.json", File.ReadAllText(PathOf("sound.json")), ProfileCommands()),
            ("fitted.json", File.ReadAllText(PathOf("fitted.json")), [["characterise", "@", "--out", "out/p.json", "--snr", "7"], ["report", "@", "--out", "out/r"]]),
            ("plan.json", File.ReadAllText(PathOf("plan/plan.json")), [["intake", "set", "--plan", "@"], ["characterise", "set", "--plan", "@", "--out", "out/p.json"]]),
            ("body.json", Simulation.Bodies.VirtualBodyFile.ToText(new Simulation.Bodies.VirtualBody()), [["rehearse", "out/set", "--body", "@", "--iso", "400", "--pixels", "24x16"]]),
            ("set.truth.json", File.ReadAllText(PathOf("set.truth.json")), [["characterise", "sound.json", "--out", "out/p.json", "--truth", "@"]]),
            ("manifest.json", ManifestOf(_bundle), [["verify", "out.zip"], ["verify", "out.zip", "--json"]]),
        ];
    }

    /// <summary>The sound documents, and the commands that read each.</summary>
    public IReadOnlyList<(string Name, string Text, string[][] Commands)> Documents => _documents;

    /// <summary>Feeds one mutated document to one of its commands.</summary>
    /// <param name="document">Is given the document's text, to keep a find.</param>
    public CommandOutcome Feed(out string document)
    {
        (string name, string text, string[][] commands) = _documents[_random.Next(_documents.Length)];
        document = _mutator.Mutate(text);
        return Put(name, document, commands[_random.Next(commands.Length)], (_, _) => { });
    }

    /// <summary>Feeds a document to a command.</summary>
    /// <param name="name">Which of <see cref="Documents"/> it stands for.</param>
    /// <param name="document">Its text.</param>
    /// <param name="command">One of that document's commands.</param>
    /// <param name="look">Is given what was written to both streams, and the folder that outputs went to, before it is removed.</param>
    public CommandOutcome Put(string name, string document, string[] command, Action<string, string> look)
    {
        string path = Path.Combine(PathOf(Space), name);
        File.WriteAllText(path, document);
        if (name == "manifest.json")
        {
            WriteBundle(document);
        }

        Directory.CreateDirectory(PathOf("out"));
        string[] words = [.. command.Select(word => word == "@" ? path : IsPath(word) ? PathOf(word) : word)];
        (CommandOutcome outcome, string told) = RunAndListen(words);
        look(told, PathOf("out"));
        string? left = Directory.EnumerateFileSystemEntries(_folder, ".sensorlab-*", SearchOption.AllDirectories).FirstOrDefault();
        Directory.Delete(PathOf("out"), recursive: true);
        return left is null ? outcome : outcome with { Fault = $"{left} was left." };
    }

    /// <inheritdoc/>
    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static string[][] ProfileCommands() =>
    [
        ["place", "@", "--iso", "400", "--tone", "2"],
        ["place", "@", "--iso", "400", "--tone", "-3", "--scene", "-5..3", "--json"],
        ["report", "@", "--out", "out/r"],
        ["pocket", "@", "--out", "out/p.html"],
        ["pocket", "@", "sound.json", "--out", "out/p.pdf"],
        ["swatch", "@", "--iso", "100", "--out", "out/s.html"],
        ["retest", "@", "sound.json"],
        ["retest", "sound.json", "@", "--json", "--report", "out/r"],
        ["publish", "@", "--accept-findings", "--out", "out/b.zip"],
        ["publish", "@", "--accept-findings", "--anonymous", "--out", "out/b.zip"],
        ["plan", "--protocol", "evening", "--from", "@", "--out", "out/p"],
        ["characterise", "@", "--out", "out/p.json", "--snr", "7"],
    ];

    private static bool IsPath(string word) => word.StartsWith("out", StringComparison.Ordinal) || word is "set" or "sound.json";

    private static string ManifestOf(byte[] bundle)
    {
        using var archive = new ZipArchive(new MemoryStream(bundle));
        using var reader = new StreamReader(archive.GetEntry("manifest.json")!.Open());
        return reader.ReadToEnd();
    }

    private void WriteBundle(string manifest)
    {
        using FileStream file = File.Create(PathOf("out.zip"));
        file.Write(_bundle);
        using var archive = new ZipArchive(file, ZipArchiveMode.Update);
        archive.GetEntry("manifest.json")!.Delete();
        using Stream entry = archive.CreateEntry("manifest.json", CompressionLevel.NoCompression).Open();
        entry.Write(Encoding.UTF8.GetBytes(manifest));
    }

    private CommandOutcome Run(params string[] words) => RunAndListen(words).Outcome;

    private static (CommandOutcome Outcome, string Told) RunAndListen(string[] words)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        string command = string.Join(' ', words);
        using var dog = new Timer(_ => Environment.FailFast($"It hangs: {command}"), null, Hang, Timeout.InfiniteTimeSpan);
        long before = GC.GetTotalAllocatedBytes();
        var watch = Stopwatch.StartNew();
        TimeSpan processor = Environment.CpuUsage.TotalTime;
        int status = new CommandLine(Workbench.Library, new Terminal(output, error, Live: null)).RunAsync(words).GetAwaiter().GetResult();
        double seconds = Math.Min(watch.Elapsed.TotalSeconds, (Environment.CpuUsage.TotalTime - processor).TotalSeconds);
        long allocated = GC.GetTotalAllocatedBytes() - before;
        string told = output.ToString() + error;
        string? fault = !Statuses.Contains(status) ? $"Status {status}: {error}"
            : seconds > MostSeconds ? string.Create(CultureInfo.InvariantCulture, $"It took {seconds:F1} s.")
            : ForeignText.Visible(told, keepsLines: true) != told ? "A sign that steers a terminal was written."
            : null;
        return (new CommandOutcome(command, status, seconds, allocated, fault), told);
    }

    private string PathOf(string name) => Path.Combine(_folder, name);
}
