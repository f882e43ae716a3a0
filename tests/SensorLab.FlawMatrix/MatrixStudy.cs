using System.Globalization;
using System.Text;
using SensorLab.Simulation.Flaws;

namespace SensorLab.FlawMatrix;

/// <summary>Every flaw of the catalogue in its sizes.</summary>
internal static class MatrixStudy
{
    private const string Explanation = """
        Sets right · found · printed · neither; where every set also carries the finding, right or not, the size is in bold.

        | flaw | unit | sizes: right · found · printed · neither |
        | --- | --- | --- |
        """;

    /// <summary>Runs the matrix.</summary>
    public static async Task<StudyReport> RunAsync(FlawedSets sets, StudyOptions options)
    {
        FlawDescription[] flaws = [.. FlawCatalogue.All.Where(f => options.Flaws.Count == 0 || options.Flaws.Contains(f.Code))];
        IReadOnlyList<MatrixBody> bodies = options.BodiesOr(MatrixBody.OfMatrix);
        (FlawDescription Flaw, double? Size, MatrixBody Body, ulong Seed)[] cells =
        [
            .. from flaw in flaws
               from size in options.Sizes.Count > 0 && flaw.Size.IsSized ? [.. options.Sizes.Select(s => (double?)s)] : SizeLadder.Of(flaw)
               from body in bodies
               from seed in Enumerable.Range(options.FirstSeed, options.Seeds)
               select (flaw, size, body, (ulong)seed),
        ];
        IReadOnlyList<SetOutcome> outcomes = await SetPool.RunAsync(
            [.. cells.Select(c => (Func<Task<SetOutcome>>)(() => sets.JudgeAsync(c.Body, c.Seed, [new FlawRequest(c.Flaw.Code, c.Size)])))],
            options.Jobs,
            outcome => outcome.Verdict >= options.Tell);
        int neither = outcomes.Count(o => o.Verdict == Verdict.Neither);
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"{outcomes.Count} sets of {flaws.Length} flaws, {options.Seeds} a size and body ({string.Join(", ", bodies.Select(b => b.Name))}); neither: {neither}; printed though wrong, under a finding that names the flaw: {outcomes.Count(o => o.Verdict == Verdict.Printed)}.").AppendLine().AppendLine(Explanation);
        foreach (FlawDescription flaw in flaws)
        {
            IEnumerable<string> sizes = cells
                .Zip(outcomes)
                .Where(p => p.First.Flaw == flaw)
                .GroupBy(p => p.First.Size)
                .Select(g => Summary(g.Key, [.. g.Select(p => p.Second)]));
            text.AppendLine(CultureInfo.InvariantCulture, $"| `{flaw.Code}` | {flaw.Size.Unit} | {string.Join(", ", sizes)} |");
        }

        return new StudyReport(text.ToString(), neither == 0);
    }

    /// <summary>A size with its verdicts, in bold where every set is named.</summary>
    internal static string Summary(double? size, SetOutcome[] outcomes)
    {
        string name = size is { } s ? s.ToString(CultureInfo.InvariantCulture) : "there";
        string counts = string.Join(" · ", Enum.GetValues<Verdict>().Select(v => outcomes.Count(o => o.Verdict == v)));
        return $"{(outcomes.All(o => o.IsNamed) ? $"**{name}**" : name)}: {counts}";
    }
}
