using System.Diagnostics;
using System.IO.Compression;
using SensorLab.Fuzzing.Targets;
using SensorLab.RawFiles.Tests.Support;

namespace SensorLab.RawFiles.Tests.Dng;

/// <summary>The fuzzers' seeds, what they reached and what they found: each ends in success or a named error, in bounded time and memory.</summary>
public sealed class FuzzedFilesTests
{
    private const int CutsPerFile = 200;

    /// <summary>Directories behind the pixels take less than a tenth of every seed.</summary>
    private const double LeastShareOfErrors = 0.9;

    /// <summary>A thousand times what the slowest file takes: what is guarded against are hangs.</summary>
    private const double MostSeconds = 10;

    private static readonly FuzzTarget[] Targets = [new DngTarget(), new LosslessJpegTarget()];

    public static TheoryData<string> TargetNames() => [.. Targets.Select(target => target.Name)];

    public static TheoryData<string, string> Seeds() =>
        [.. Targets.SelectMany(target => SeedFiles.Of(target.Name).Select(seed => (target.Name, seed.Name)))];

    [Theory]
    [MemberData(nameof(TargetNames))]
    public void Feed_CorpusOfTheFuzzer_EndsInANamedErrorOrDecodes(string name)
    {
        int fed = 0;
        using ZipArchive corpus = ZipFile.OpenRead(Path.Combine(FuzzingFolder(), "Corpus", name + ".zip"));
        foreach (ZipArchiveEntry entry in corpus.Entries)
        {
            using var bytes = new MemoryStream();
            using (Stream stream = entry.Open())
            {
                stream.CopyTo(bytes);
            }

            Feed(name, entry.FullName, bytes.ToArray());
            fed++;
        }

        Assert.True(fed > 100);
    }

    [Theory]
    [MemberData(nameof(TargetNames))]
    public void Feed_EverythingThatEverFailed_EndsInANamedError(string name)
    {
        string folder = Path.Combine(FuzzingFolder(), "Finds", name);
        foreach (string path in Directory.Exists(folder) ? Directory.GetFiles(folder) : [])
        {
            Assert.NotNull(Feed(name, Path.GetFileName(path), File.ReadAllBytes(path)).Error);
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Feed_SeedCutAtTwoHundredPlaces_EndsInANamedErrorOrInAllPixels(string name, string seed)
    {
        byte[] whole = SeedFiles.Of(name).Single(s => s.Name == seed).Bytes;
        FuzzOutcome good = Feed(name, seed, whole);
        int errors = 0;
        for (int i = 0; i < CutsPerFile; i++)
        {
            FuzzOutcome cut = Feed(name, $"{seed} cut at {i}", whole[..(whole.Length * i / CutsPerFile)]);

            // Cut behind its pixels, a file lacks metadata, or an end marker, and no more.
            Assert.True(cut.Error is not null || cut == good, $"{seed} cut at {i}");
            errors += cut.Error is null ? 0 : 1;
        }

        Assert.True(errors >= CutsPerFile * LeastShareOfErrors, $"{errors} of {CutsPerFile}");
    }

    private static FuzzOutcome Feed(string target, string what, byte[] bytes)
    {
        using var file = new TemporaryFile(bytes);
        var watch = Stopwatch.StartNew();
        FuzzOutcome outcome = default;
        Exception? fault = Record.Exception(() => outcome = Targets.Single(t => t.Name == target).Feed(file.Path));

        Assert.True(fault is null, $"{what}: {fault}");
        Assert.True(watch.Elapsed.TotalSeconds < MostSeconds, what);
        return outcome;
    }

    private static string FuzzingFolder()
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !File.Exists(Path.Combine(folder, "SensorLab.sln")))
        {
            folder = Path.GetDirectoryName(folder);
        }

        return Path.Combine(folder!, "tests", "SensorLab.Fuzzing");
    }
}
