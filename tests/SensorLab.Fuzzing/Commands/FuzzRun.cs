using System.Globalization;

namespace SensorLab.Fuzzing.Commands;

/// <summary>A run of a fuzzer of commands, with its tally.</summary>
internal sealed class FuzzRun
{
    private const int TellEvery = 500;

    private readonly List<CommandOutcome> _outcomes = [];
    private readonly string _what;

    private FuzzRun(string what) => _what = what;

    /// <summary>Whether every command did what it owed.</summary>
    public bool IsClean => _outcomes.TrueForAll(o => o.Fault is null);

    /// <summary>Feeds inputs and tells how the commands ended.</summary>
    /// <param name="what">What is fed, in the plural.</param>
    /// <param name="count">How many.</param>
    /// <param name="seed">The seed, for the finds' names.</param>
    /// <param name="finds">Where inputs go that a command failed on.</param>
    /// <param name="feed">Feeds one, and gives it.</param>
    public static FuzzRun Of(string what, int count, int seed, string finds, Func<(CommandOutcome Outcome, byte[] Input)> feed)
    {
        Directory.CreateDirectory(finds);
        var run = new FuzzRun(what);
        for (int i = 0; i < count; i++)
        {
            (CommandOutcome outcome, byte[] input) = feed();
            run._outcomes.Add(outcome);
            if (outcome.Fault is { } fault)
            {
                string name = string.Create(CultureInfo.InvariantCulture, $"{seed}-{i}");
                File.WriteAllBytes(Path.Combine(finds, name + ".find"), input);
                File.WriteAllText(Path.Combine(finds, name + ".txt"), $"{outcome.Command}\n{fault}\n");
                Console.WriteLine($"{name}: {outcome.Command}: {fault.TrimEnd()}");
            }

            if ((i + 1) % TellEvery == 0 || i + 1 == count)
            {
                Console.WriteLine($"{run._outcomes.Count} {what}; {run.Summary()}");
            }
        }

        return run;
    }

    /// <summary>The tally as Markdown.</summary>
    public string ToMarkdown()
    {
        IEnumerable<string> rows = _outcomes.GroupBy(CommandOf).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => string.Create(
            CultureInfo.InvariantCulture,
            $"| {g.Key} | {g.Count()} | {StatusesOf(g)} | {g.Max(o => o.Seconds):F1} | {g.Max(o => o.PeakBytes) / 1e6:F0} | {g.Count(o => o.Fault is not null)} |"));
        return string.Join(
            '\n',
            [
                string.Create(CultureInfo.InvariantCulture, $"{_outcomes.Count} {_what}; {Summary()}."),
                string.Empty,
                "| command | fed | statuses and how often | slowest, s | most memory, MB | failed |",
                "| --- | ---: | --- | ---: | ---: | ---: |",
                .. rows,
            ]);
    }

    private static string CommandOf(CommandOutcome outcome) => outcome.Command.Split(' ')[0];

    private static string StatusesOf(IEnumerable<CommandOutcome> outcomes) => string.Join(
        ", ",
        outcomes.GroupBy(o => o.Status).OrderBy(g => g.Key).Select(g => string.Create(CultureInfo.InvariantCulture, $"{g.Key}: {g.Count()}")));

    private string Summary()
    {
        CommandOutcome slowest = _outcomes.MaxBy(o => o.Seconds)!;
        CommandOutcome largest = _outcomes.MaxBy(o => o.PeakBytes)!;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"statuses {StatusesOf(_outcomes)}; {_outcomes.Count(o => o.Fault is not null)} failed; slowest {slowest.Seconds:F1} s ({CommandOf(slowest)}); most memory {largest.PeakBytes / 1e6:F0} MB ({CommandOf(largest)})");
    }
}
