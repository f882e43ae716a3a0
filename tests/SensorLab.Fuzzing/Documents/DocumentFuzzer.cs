using System.IO.Compression;
using System.Text;
using SensorLab.Fuzzing.Commands;
using SensorLab.Profiles;
using SensorLab.Simulation.Writing;
using SensorLab.TestData;

namespace SensorLab.Fuzzing.Documents;

/// <summary>Puts unsound documents through every command that reads them.</summary>
internal sealed class DocumentFuzzer : IDisposable
{
    private const string Space = "in";
    private const string Table = "frames.csv";
    private const string SettingsName = "settings.json";
    private const int DocumentsForATable = 8;

    private static readonly string[][] TableCommands =
    [
        ["intake", "set"], ["intake", "set", "--json"], ["characterise", "set", "--out", "out/p.json"], ["assign", "set", "--metered", SmallSet.Metered, "--out", "out/f.csv"],
    ];

    private const string SoundSettings = """{"meter-step": "1/3", "mains": "50", "shutter": "1/8000..30", "delivery": "2400x1600", "key": "nobody.pem", "shelf": "profiles"}""";

    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-fuzz-").FullName;
    private readonly DocumentMutator _mutator;
    private readonly TableMutator _tables;
    private readonly Random _random;
    private readonly (string Name, string Text, string[][] Commands)[] _documents;
    private readonly byte[] _bundle;
    private readonly string _table;

    /// <summary>Makes the sound documents.</summary>
    /// <param name="seed">The same seed gives the same documents and commands.</param>
    public DocumentFuzzer(int seed)
    {
        _mutator = new DocumentMutator(seed);
        _tables = new TableMutator(seed);
        _random = new Random(seed);
        Directory.CreateDirectory(PathOf(Space));
        SensorProfile profile = SampleProfiles.ThreeIsos();
        SensorProfile one = profile with { IsoProfiles = [profile.IsoProfiles[1]] };
        SensorProfileWriter.WriteFile(one, PathOf("sound.json"));
        SmallSet.Write(PathOf("set"), new DngOptions(), hasPreviews: true);
        CommandJudge.Run(["plan", "--protocol", "evening", "--iso", "400", "--out", PathOf("plan")]);
        CommandJudge.Run(["publish", PathOf("sound.json"), "--accept-findings", "--out", PathOf("sound.zip")]);
        CommandJudge.Run(["characterise", PathOf("set"), "--out", PathOf("fitted.json")]);
        SmallSet.Write(PathOf("large"), new DngOptions(), hasPreviews: false, SmallSet.SixBySix);
        CommandJudge.Run(["characterise", PathOf("large"), "--out", PathOf("large.json")]);
        _bundle = File.ReadAllBytes(PathOf("sound.zip"));
        CommandJudge.Run(["assign", PathOf("set"), "--metered", SmallSet.Metered]);
        _table = File.ReadAllText(PathOf("set/frames.csv"));
        _documents =
        [
            ("profile.json", File.ReadAllText(PathOf("sound.json")), ProfileCommands()),
            ("fitted.json", File.ReadAllText(PathOf("fitted.json")), [["characterise", "@", "--out", "out/p.json", "--snr", "7"], ["report", "@", "--out", "out/r"], ["debrief", "@", "set", "--out", "out/d"], ["confirm", "@", "set"]]),
            ("large.json", File.ReadAllText(PathOf("large.json")), [["characterise", "@", "--out", "out/p.json"], ["report", "@", "--out", "out/r"], ["confirm", "@", "set"], ["retest", "@", "sound.json", "--out", "out/t.html"]]),
            ("plan.json", File.ReadAllText(PathOf("plan/plan.json")), [["intake", "set", "--plan", "@"], ["characterise", "set", "--plan", "@", "--out", "out/p.json"]]),
            ("body.json", Simulation.Bodies.VirtualBodyFile.ToText(new Simulation.Bodies.VirtualBody()), [["rehearse", "out/set", "--body", "@", "--iso", "400", "--pixels", "24x16"]]),
            ("set.truth.json", File.ReadAllText(PathOf("set.truth.json")), [["characterise", "sound.json", "--out", "out/p.json", "--truth", "@"]]),
            ("manifest.json", ManifestOf(_bundle), [["verify", "out.zip"], ["verify", "out.zip", "--json"]]),
            (SettingsName, SoundSettings, [["settings"], ["settings", "mains", "60"], ["plan", "--protocol", "evening", "--iso", "400", "--out", "out/p"], ["publish", "sound.json", "--accept-findings", "--out", "out/b.zip"]]),
        ];
    }

    /// <summary>The sound documents in JSON, and the commands that read each.</summary>
    public IReadOnlyList<(string Name, string Text, string[][] Commands)> Documents => _documents;

    /// <summary>Feeds one mutated document to one of its commands.</summary>
    /// <param name="document">Is given the document's text, to keep a find.</param>
    public CommandOutcome Feed(out string document)
    {
        if (_random.Next(DocumentsForATable) == 0)
        {
            document = _tables.Mutate(_table);
            CommandOutcome outcome = Put(Table, document, TableCommands[_random.Next(TableCommands.Length)], (_, _) => { });
            File.WriteAllText(PathOf("set/frames.csv"), _table);
            return outcome;
        }

        (string name, string text, string[][] commands) = _documents[_random.Next(_documents.Length)];
        document = _mutator.Mutate(text);
        return Put(name, document, commands[_random.Next(commands.Length)], (_, _) => { });
    }

    /// <summary>Feeds a document to a command.</summary>
    /// <param name="name">Which of <see cref="Documents"/> it stands for, or <c>frames.csv</c>.</param>
    /// <param name="document">Its text.</param>
    /// <param name="command">One of that document's commands.</param>
    /// <param name="look">Is given what was written to both streams, and the folder that outputs went to, before it is removed.</param>
    public CommandOutcome Put(string name, string document, string[] command, Action<string, string> look)
    {
        string path = Path.Combine(PathOf(name == Table ? "set" : Space), name);
        File.WriteAllText(path, document);
        if (name == "manifest.json")
        {
            WriteBundle(document);
        }

        Directory.CreateDirectory(PathOf("out"));
        string[] words = [.. command.Select(word => word == "@" ? path : IsPath(word) ? PathOf(word) : word)];
        (CommandOutcome outcome, string told) = CommandJudge.Run(words, settings: name == SettingsName ? path : string.Empty);
        look(told, PathOf("out"));
        outcome = CommandJudge.WithLeftovers(outcome, _folder);
        Directory.Delete(PathOf("out"), recursive: true);
        return outcome;
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
        ["swatch", "@", "--iso", "100", "--out", "out/s.pdf"],
        ["debrief", "@", "set", "--out", "out/d", "--json"],
        ["confirm", "@", "set", "--json"],
        ["shelf", "add", "@", "sound.json", "--shelf", "out/shelf"],
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

    private string PathOf(string name) => Path.Combine(_folder, name);
}
