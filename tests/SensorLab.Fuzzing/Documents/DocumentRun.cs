using System.Globalization;

namespace SensorLab.Fuzzing.Documents;

/// <summary>A run of the document fuzzer, with its tally.</summary>
internal static class DocumentRun
{
    private const int TellEvery = 500;

    /// <summary>Feeds documents and tells how the commands ended.</summary>
    /// <param name="count">How many documents.</param>
    /// <param name="seed">The first seed.</param>
    /// <param name="finds">Where documents go that a command failed on.</param>
    /// <returns>1 where one failed, else 0.</returns>
    public static int Of(int count, int seed, string finds)
    {
        Directory.CreateDirectory(finds);
        using var fuzzer = new DocumentFuzzer(seed);
        var outcomes = new List<CommandOutcome>();
        for (int i = 0; i < count; i++)
        {
            CommandOutcome outcome = fuzzer.Feed(out string document);
            outcomes.Add(outcome);
            if (outcome.Fault is { } fault)
            {
                string name = string.Create(CultureInfo.InvariantCulture, $"{seed}-{i}");
                File.WriteAllText(Path.Combine(finds, name + ".document"), document);
                File.WriteAllText(Path.Combine(finds, name + ".txt"), $"{outcome.Command}\n{fault}\n");
                Console.WriteLine($"{name}: {outcome.Command}: {fault.TrimEnd()}");
            }

            if ((i + 1) % TellEvery == 0 || i + 1 == count)
            {
                Tell(outcomes);
            }
        }

        return outcomes.Any(o => o.Fault is not null) ? 1 : 0;
    }

    private static void Tell(List<CommandOutcome> outcomes)
    {
        string statuses = string.Join(", ", outcomes.GroupBy(o => o.Status).OrderBy(g => g.Key).Select(g => string.Create(CultureInfo.InvariantCulture, $"{g.Key}: {g.Count()}")));
        CommandOutcome slowest = outcomes.MaxBy(o => o.Seconds)!;
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{outcomes.Count} documents; statuses {statuses}; {outcomes.Count(o => o.Fault is not null)} failed; slowest {slowest.Seconds:F1} s ({slowest.Command.Split(' ')[0]}); most allocated {outcomes.Max(o => o.AllocatedBytes) / 1e6:F0} MB; largest working set {Environment.WorkingSet / 1e6:F0} MB"));
    }
}
