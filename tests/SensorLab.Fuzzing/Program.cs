using System.Globalization;
using System.Text;
using SensorLab.Fuzzing.Commands;
using SensorLab.Fuzzing.Documents;
using SensorLab.Fuzzing.Raw;
using SensorLab.Fuzzing.Targets;
using SensorLab.TestData;
using SharpFuzz;

// SensorLab.Fuzzing seeds TARGET FOLDER: writes the seeds.
// SensorLab.Fuzzing replay TARGET FILE…: feeds files and says how each ends.
// SensorLab.Fuzzing fuzz TARGET SCRATCH: takes its turns from afl-fuzz; SCRATCH is a file that holds what is fed.
// SensorLab.Fuzzing documents COUNT SEED FINDS: puts mutated documents through the commands; FINDS is a folder for what fails.
// SensorLab.Fuzzing raw COUNT SEED FINDS: puts sets and cards with a damaged file through the commands.
// --write-results after either states the run in RESULTS.md.
if (args is ["documents" or "raw", var count, var firstSeed, var finds, .. var rest] && rest is [] or ["--write-results"])
{
    bool isRaw = args[0] == "raw";
    int seed = int.Parse(firstSeed, CultureInfo.InvariantCulture);
    using var raw = isRaw ? new RawFuzzer(seed) : null;
    using var documents = isRaw ? null : new DocumentFuzzer(seed);
    FuzzRun run = FuzzRun.Of(isRaw ? "damaged raw files" : "mutated documents", int.Parse(count, CultureInfo.InvariantCulture), seed, finds, () =>
    {
        if (raw is not null)
        {
            return raw.Feed(out _);
        }

        CommandOutcome outcome = documents!.Feed(out string document);
        return (outcome, Encoding.UTF8.GetBytes(document));
    });
    if (rest.Length > 0)
    {
        StudyResults.Write("tests/SensorLab.Fuzzing", args[0], $"dotnet run -c Release --project tests/SensorLab.Fuzzing -- {string.Join(' ', args)}", run.ToMarkdown());
    }

    return run.IsClean ? 0 : 1;
}

FuzzTarget[] targets = [new DngTarget(), new LosslessJpegTarget()];
if (args is not [string word, string name, string first, ..] || targets.FirstOrDefault(t => t.Name == name) is not FuzzTarget target)
{
    Console.Error.WriteLine("Usage: SensorLab.Fuzzing seeds|replay|fuzz dng|jpeg PATH…");
    Console.Error.WriteLine("       SensorLab.Fuzzing documents|raw COUNT SEED FINDS [--write-results]");
    return 2;
}

switch (word)
{
    case "seeds":
        Directory.CreateDirectory(first);
        foreach ((string seed, byte[] bytes) in SeedFiles.Of(name))
        {
            File.WriteAllBytes(Path.Combine(first, seed), bytes);
        }

        return 0;
    case "replay":
        foreach (string path in args[2..])
        {
            Console.WriteLine($"{path}: {target.Feed(path).Error ?? "decodes"}");
        }

        return 0;
    default:
        Fuzzer.Run(stream =>
        {
            using (FileStream scratch = File.Create(first))
            {
                stream.CopyTo(scratch);
            }

            _ = target.Feed(first);
        });
        return 0;
}
