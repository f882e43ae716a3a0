using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using SensorLab.Bench.Api;
using SensorLab.Files;

namespace SensorLab.Bench.Sessions;

/// <summary>The sets that were opened, in the user's data folder: a folder each, with its journal and its results.</summary>
/// <param name="folder">The data folder; empty for none: nothing is then kept.</param>
internal sealed class Journal(string folder)
{
    private const int MostBytes = 20_000_000;

    private const string Name = "set.json";

    private const string LastName = "last.txt";

    private const string LevelsName = "levels";

    /// <summary>Where a set's results go; null without a data folder.</summary>
    /// <param name="set">The set's folder.</param>
    public string? ResultsOf(string set) => folder.Length == 0 ? null : Path.Combine(folder, PlaceOf(set));

    /// <summary>Where the levels that are measured of a set are kept; null without a data folder. Those of other sets are thrown away: they are large, and measured again in a minute.</summary>
    /// <param name="set">The folder of the set that is opened.</param>
    public string? LevelsOf(string set)
    {
        if (ResultsOf(set) is not { } place)
        {
            return null;
        }

        foreach (string other in Directory.Exists(folder) ? Directory.EnumerateDirectories(folder).Where(f => f != place) : [])
        {
            Discard(Path.Combine(other, LevelsName));
        }

        return Path.Combine(place, LevelsName);
    }

    /// <summary>Keeps a set.</summary>
    /// <param name="entry">What is needed to open it again.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public void Keep(JournalEntry entry)
    {
        if (ResultsOf(entry.Folder) is not { } place)
        {
            return;
        }

        Directory.CreateDirectory(place);
        WholeFile.Write(Path.Combine(place, Name), JsonSerializer.SerializeToUtf8Bytes(entry, BenchJson.Default.JournalEntry));
        WholeFile.Write(Path.Combine(folder, LastName), Encoding.UTF8.GetBytes(PlaceOf(entry.Folder)));
    }

    /// <summary>Forgets which set was open last; its own journal stays.</summary>
    public void ForgetLast()
    {
        if (folder.Length > 0)
        {
            File.Delete(Path.Combine(folder, LastName));
        }
    }

    /// <summary>What is known of a set.</summary>
    /// <param name="set">The set's folder.</param>
    /// <returns>Null where it was never opened, or its journal cannot be read.</returns>
    public JournalEntry? Of(string set) => folder.Length == 0 ? null : Read(PlaceOf(set));

    /// <summary>The set that was open last; null where none was, or where its folder is gone.</summary>
    public JournalEntry? Last()
    {
        string path = Path.Combine(folder, LastName);
        return folder.Length > 0 && File.Exists(path) && Read(Path.GetFileName(File.ReadAllText(path).Trim())) is { } entry && Directory.Exists(entry.Folder) ? entry : null;
    }

    private static void Discard(string levels)
    {
        try
        {
            if (Directory.Exists(levels))
            {
                Directory.Delete(levels, recursive: true);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // Another bench is at work on them: it is no matter.
        }
    }

    private static string PlaceOf(string set) => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(set)))[..16];

    private JournalEntry? Read(string place)
    {
        string path = Path.Combine(folder, place, Name);
        try
        {
            return File.Exists(path) && JsonSerializer.Deserialize(PlainFile.ReadAllBytes(path, MostBytes), BenchJson.Default.JournalEntry) is { IsSound: true } entry ? entry : null;
        }
        catch (Exception e) when (e is JsonException or IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
