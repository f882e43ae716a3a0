using System.Globalization;
using SensorLab.Fuzzing.Documents;
using SensorLab.Fuzzing.Targets;
using SharpFuzz;

// SensorLab.Fuzzing seeds TARGET FOLDER: writes the seeds.
// SensorLab.Fuzzing replay TARGET FILE…: feeds files and says how each ends.
// SensorLab.Fuzzing fuzz TARGET SCRATCH: takes its turns from afl-fuzz; SCRATCH is a file that holds what is fed.
// SensorLab.Fuzzing documents COUNT SEED FINDS: puts mutated documents through the commands; FINDS is a folder for what fails.
if (args is ["documents", var count, var firstSeed, var finds])
{
    return DocumentRun.Of(int.Parse(count, CultureInfo.InvariantCulture), int.Parse(firstSeed, CultureInfo.InvariantCulture), finds);
}

FuzzTarget[] targets = [new DngTarget(), new LosslessJpegTarget()];
if (args is not [string word, string name, string first, ..] || targets.FirstOrDefault(t => t.Name == name) is not FuzzTarget target)
{
    Console.Error.WriteLine("Usage: SensorLab.Fuzzing seeds|replay|fuzz dng|jpeg PATH…");
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
