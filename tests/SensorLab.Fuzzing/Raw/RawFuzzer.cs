using SensorLab.Fuzzing.Commands;
using SensorLab.RawFiles.Previews;
using SensorLab.Simulation.Writing;

namespace SensorLab.Fuzzing.Raw;

/// <summary>Puts damaged raw files, one in a small set or on a small card, through every command that reads them.</summary>
internal sealed class RawFuzzer : IDisposable
{
    // DNGVersion under a number that nobody knows: the file then counts as a maker's own, which LibRaw reads.
    private const ushort DngVersion = 50706;
    private const ushort NobodysTag = 65001;

    private static readonly (string Name, DngOptions Form, string? Filters)[] Forms =
    [
        ("plain", new DngOptions(), null),
        ("packed", new DngOptions { BitsPerSample = 14, IsBigEndian = true }, null),
        ("tiles", new DngOptions { Tile = (16, 16), IsBehindPreview = true }, null),
        ("deflate", new DngOptions { Compression = DngCompression.Deflate, RowsPerStrip = 10 }, null),
        ("deflate-tiles", new DngOptions { Compression = DngCompression.Deflate, Tile = (16, 16), IsBigEndian = true }, null),
        ("lossless", new DngOptions { Compression = DngCompression.Lossless }, null),
        ("lossless-tiles", new DngOptions { Compression = DngCompression.Lossless, Tile = (32, 32), LosslessJpeg = new LosslessJpegForm { Predictor = 6 }, IsBehindPreview = true }, null),
        ("six-by-six", new DngOptions { Compression = DngCompression.Lossless, Tile = (32, 32) }, SmallSet.SixBySix),
        ("quad", new DngOptions { BitsPerSample = 14 }, SmallSet.Quad),
    ];

    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-fuzz-").FullName;
    private readonly RawMutator _mutator;
    private readonly Random _random;
    private readonly byte[] _picture;

    /// <summary>Makes the sound sets and cards: one of each form of file, every second one without previews.</summary>
    /// <param name="seed">The same seed gives the same files and commands.</param>
    public RawFuzzer(int seed)
    {
        _mutator = new RawMutator(seed);
        _random = new Random(seed);
        for (int i = 0; i < Forms.Length; i++)
        {
            string set = SetOf(i);
            SmallSet.Write(set, Forms[i].Form, hasPreviews: i % 2 == 0, Forms[i].Filters);
            Directory.CreateDirectory(CardOf(i));
            foreach (string frame in SmallSet.FramesOf(set))
            {
                File.Copy(frame, Path.Combine(CardOf(i), Path.GetFileName(frame)));
            }

            CommandJudge.Run(["characterise", set, "--jobs", "1", "--out", ProfileOf(i)]);
        }

        _picture = PreviewExtractor.Extract(SmallSet.FramesOf(SetOf(0))[^1]) ?? throw new InvalidOperationException("A rehearsed frame has no preview.");
    }

    /// <summary>Runs every command on every sound set and card.</summary>
    public IEnumerable<CommandOutcome> FeedSound() => Enumerable.Range(0, Forms.Length).SelectMany(form => Commands(form).Select(words => Run(words).Outcome));

    /// <summary>Damages one file of a set or a card and feeds it to a command.</summary>
    /// <param name="isNamed">Whether the command named the file, on either stream.</param>
    /// <returns>How it ended, and the file's bytes.</returns>
    public (CommandOutcome Outcome, byte[] File) Feed(out bool isNamed)
    {
        int form = _random.Next(Forms.Length);
        string[] command = Commands(form)[_random.Next(Commands(form).Length)];
        string[] frames = SmallSet.FramesOf(command.First(Directory.Exists));
        string frame = frames[_random.Next(frames.Length)];
        byte[] sound = File.ReadAllBytes(frame);
        (string path, byte[] mutated) = _random.Next(8) switch
        {
            0 => (Path.ChangeExtension(frame, ".jpg"), _mutator.Mutate(_picture)),
            1 => (Path.ChangeExtension(frame, ".nef"), _mutator.Mutate(AsAMakers(sound))),
            2 => (frame, _mutator.Mutate(_picture)),
            _ => (frame, _mutator.Mutate(sound)),
        };
        if (Path.GetExtension(path) == ".nef")
        {
            File.Delete(frame);
        }

        File.WriteAllBytes(path, mutated);
        (CommandOutcome outcome, string told) = Run(command);
        isNamed = told.Contains(Path.GetFileName(path), StringComparison.Ordinal);
        File.Delete(path);
        File.WriteAllBytes(frame, sound);
        return (outcome with { Command = $"{outcome.Command} ({Path.GetFileName(path)})" }, mutated);
    }

    /// <inheritdoc/>
    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static byte[] AsAMakers(byte[] dng)
    {
        byte[] file = [.. dng];
        bool isBigEndian = file[0] == 'M';
        byte[] tag = isBigEndian ? [DngVersion >> 8, DngVersion & 255, 0, 1] : [DngVersion & 255, DngVersion >> 8, 1, 0];
        byte[] other = isBigEndian ? [NobodysTag >> 8, NobodysTag & 255] : [NobodysTag & 255, NobodysTag >> 8];
        int at = file.AsSpan().LastIndexOf(tag);
        other.CopyTo(file, at);
        return file;
    }

    private string[][] Commands(int form) =>
    [
        ["intake", SetOf(form), "--jobs", "1"],
        ["intake", SetOf(form), "--jobs", "1", "--spot", "20,16", "--json"],
        ["intake", SetOf(form), "--jobs", "1", "--thumbnail", PathOf("out/t.png")],
        ["characterise", SetOf(form), "--jobs", "1", "--out", PathOf("out/p.json")],
        ["characterise", SetOf(form), "--jobs", "1", "--region", Forms[form].Filters is null ? "4,4,30,20" : "3,5,75,65", "--json", "--out", PathOf("out/p.json")],
        ["assign", CardOf(form), "--metered", SmallSet.Metered, "--out", PathOf("out/frames.csv")],
        ["assign", CardOf(form), "--metered", SmallSet.Metered, "--json", "--out", PathOf("out/frames.csv")],
        ["debrief", ProfileOf(form), CardOf(form), "--out", PathOf("out/d")],
        ["confirm", ProfileOf(form), SetOf(form), "--json"],
    ];

    private (CommandOutcome Outcome, string Told) Run(string[] words)
    {
        Directory.CreateDirectory(PathOf("out"));
        (CommandOutcome outcome, string told) = CommandJudge.Run(words);
        outcome = CommandJudge.WithLeftovers(outcome, _folder);
        Directory.Delete(PathOf("out"), recursive: true);
        return (outcome, told);
    }

    private string ProfileOf(int form) => PathOf($"{Forms[form].Name}.json");

    private string SetOf(int form) => PathOf($"{Forms[form].Name}-set");

    private string CardOf(int form) => PathOf($"{Forms[form].Name}-card");

    private string PathOf(string name) => Path.Combine(_folder, name);
}
