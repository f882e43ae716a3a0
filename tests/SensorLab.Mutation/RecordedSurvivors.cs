using System.Globalization;
using System.Text.RegularExpressions;
using SensorLab.TestData;

namespace SensorLab.Mutation;

/// <summary>The survivors of the run on record, found again in code that has moved on.</summary>
internal static partial class RecordedSurvivors
{
    /// <summary>What stands in RESULTS.md above their table.</summary>
    public const string Heading = "Survivors";

    /// <summary>Picks them from all mutants: the same change in the same file, or in its folder where the file has gone, at the line that lies nearest. One whose code has gone is left out.</summary>
    /// <param name="all">All mutants, each with what owns it.</param>
    /// <exception cref="InvalidDataException">No run is on record.</exception>
    public static IEnumerable<(T Owner, Mutant Mutant)> Among<T>(IReadOnlyCollection<(T Owner, Mutant Mutant)> all)
    {
        string results = Path.Combine(Repository.Root, "tests", "SensorLab.Mutation", "RESULTS.md");
        string text = File.Exists(results) ? File.ReadAllText(results) : string.Empty;
        string section = text.Split("\n## ").SingleOrDefault(s => s.StartsWith(Heading + "\n", StringComparison.Ordinal))
            ?? throw new InvalidDataException("No run is on record to ask again: a run with --write-results and without --again puts one there.");
        foreach (Match row in Row().Matches(section))
        {
            string file = row.Groups["file"].Value;
            int line = int.Parse(row.Groups["line"].ValueSpan, CultureInfo.InvariantCulture);
            string change = row.Groups["change"].Value.Replace("\\|", "|", StringComparison.Ordinal);
            bool isThere = all.Any(m => FileOf(m.Mutant) == file);
            (T Owner, Mutant Mutant)[] same = [.. all.Where(m => m.Mutant.Change == change && (isThere ? FileOf(m.Mutant) == file : Path.GetDirectoryName(FileOf(m.Mutant)) == Path.GetDirectoryName(file)))];
            if (same.Length > 0)
            {
                yield return same.MinBy(m => Math.Abs(LineOf(m.Mutant) - line));
            }
            else
            {
                Console.Error.WriteLine($"gone: {file}:{line} {change}");
            }
        }
    }

    private static string FileOf(Mutant mutant) => mutant.Place[..mutant.Place.LastIndexOf(':')];

    private static int LineOf(Mutant mutant) => int.Parse(mutant.Place.AsSpan(mutant.Place.LastIndexOf(':') + 1), CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^\| (?<file>src/[^:]+):(?<line>\d+) \| `(?<change>.*)` \|", RegexOptions.Multiline)]
    private static partial Regex Row();
}
