using System.Globalization;

namespace SensorLab.Mutation;

/// <summary>The run as Markdown: counts by kind, and every survivor.</summary>
internal static class MutationTable
{
    public static string Of(IReadOnlyList<MutantOutcome> outcomes) => string.Join('\n', Lines(outcomes));

    private static IEnumerable<string> Lines(IReadOnlyList<MutantOutcome> outcomes)
    {
        yield return "| kind | mutants | killed | survived | killed (%) |";
        yield return "| --- | ---: | ---: | ---: | ---: |";
        foreach (IGrouping<MutantKind, MutantOutcome> kind in outcomes.GroupBy(o => o.Mutant.Kind).OrderBy(g => g.Key))
        {
            yield return Counts(kind.Key.ToString(), [.. kind]);
        }

        yield return Counts("all", [.. outcomes]);
        yield return string.Empty;
        yield return "| survivor | change | classes of tests that come by |";
        yield return "| --- | --- | ---: |";
        foreach (MutantOutcome survivor in outcomes.Where(o => o.KilledBy is null).OrderBy(o => o.Mutant.Place, StringComparer.Ordinal))
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"| {survivor.Mutant.Place} | `{survivor.Mutant.Change.Replace("|", "\\|", StringComparison.Ordinal)}` | {survivor.Classes} |");
        }
    }

    private static string Counts(string name, IReadOnlyCollection<MutantOutcome> outcomes)
    {
        int killed = outcomes.Count(o => o.KilledBy is not null);
        return string.Create(CultureInfo.InvariantCulture, $"| {name} | {outcomes.Count} | {killed} | {outcomes.Count - killed} | {100.0 * killed / outcomes.Count:0.0} |");
    }
}
