using System.Globalization;
using System.Text;
using SensorLab.Simulation.Flaws;

namespace SensorLab.FlawMatrix;

/// <summary>The flaws that are likeliest to come two at a time.</summary>
/// <remarks>
/// A set is found out where every flaw that alone makes a figure wrong is named; a flaw that is harmless alone and goes
/// unnamed is owed no finding.
/// </remarks>
internal static class PairStudy
{
    private static readonly (string First, string Second, string Why)[] Pairs =
    [
        ("light-flicker=0.03", "exposure-inexact=0.06", "a pulsed lamp and a mechanical shutter"),
        ("light-banded=0.2", "light-flicker=0.02", "a pulsed lamp under a rolling shutter"),
        ("light-drift=0.3", "black-drift=3", "lamp and body warm up together"),
        ("target-uneven=0.4", "target-textured=0.01", "a wall, near"),
        ("target-uneven=0.3", "light-banded=0.2", "one lamp from one side, pulsed"),
        ("dark-current=20", "pixels-hot=200", "a warm body"),
        ("black-drift=2", "dark-current=20", "a body that warms up"),
        ("dark-lit=2", "target-uneven=0.3", "a room that is not dark"),
        ("metered-doubtful=0.3", "light-drift=0.2", "daylight through a window"),
        ("exposure-inexact=0.06", "response-nonlinear=0.04", "an old shutter and a bent response"),
    ];

    /// <summary>Runs the pairs.</summary>
    public static async Task<StudyReport> RunAsync(FlawedSets sets, StudyOptions options)
    {
        ((string First, string Second, string Why) Pair, MatrixBody Body, ulong Seed)[] cells =
        [
            .. from pair in Pairs
               from body in options.BodiesOr(MatrixBody.OfMatrix)
               from seed in Enumerable.Range(options.FirstSeed, options.Seeds)
               select (pair, body, (ulong)seed),
        ];
        IReadOnlyList<SetOutcome> outcomes = await SetPool.RunAsync(
            [.. cells.Select(c => (Func<Task<SetOutcome>>)(() => sets.JudgeAsync(c.Body, c.Seed, [FlawRequest.Parse(c.Pair.First), FlawRequest.Parse(c.Pair.Second)])))],
            options.Jobs,
            outcome => outcome.Verdict >= options.Tell);
        int neither = outcomes.Count(o => o.Verdict == Verdict.Neither);
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"{outcomes.Count} sets with two flaws; neither: {neither}.").AppendLine();
        text.AppendLine("| pair | why | right | found | printed | neither |").AppendLine("| --- | --- | ---: | ---: | ---: | ---: |");
        foreach (var pair in cells.Zip(outcomes).GroupBy(p => p.First.Pair, p => p.Second))
        {
            string counts = string.Join(" | ", Enum.GetValues<Verdict>().Select(v => pair.Count(o => o.Verdict == v)));
            text.AppendLine(CultureInfo.InvariantCulture, $"| `{pair.Key.First}` `{pair.Key.Second}` | {pair.Key.Why} | {counts} |");
        }

        return new StudyReport(text.ToString(), neither == 0);
    }
}
