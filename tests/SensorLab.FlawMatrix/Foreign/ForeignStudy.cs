using System.Globalization;
using System.Text;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>Flaws by other laws than the catalogue's: the findings must not hang on how our own rehearsals make them.</summary>
internal static class ForeignStudy
{
    private const string Explanation = """
        Sets right · found · printed · neither; where every set also carries a finding that names the flaw, the size is in bold.

        | flaw | what happens | named by | sizes: right · found · printed · neither |
        | --- | --- | --- | --- |
        """;

    /// <summary>Runs them.</summary>
    public static async Task<StudyReport> RunAsync(FlawedSets sets, StudyOptions options)
    {
        ForeignFlaw[] flaws = [.. ForeignFlaws.All.Where(f => options.Name is not { } name || f.Name.Contains(name, StringComparison.OrdinalIgnoreCase))];
        (ForeignFlaw Flaw, double Size, MatrixBody Body, ulong Seed)[] cells =
        [
            .. from flaw in flaws
               from size in options.Sizes.Count > 0 ? options.Sizes : flaw.Sizes
               from body in options.BodiesOr(MatrixBody.OfMatrix)
               from seed in Enumerable.Range(options.FirstSeed, options.Seeds)
               select (flaw, size, body, (ulong)seed),
        ];
        IReadOnlyList<SetOutcome> outcomes = await SetPool.RunAsync(
            [.. cells.Select(c => (Func<Task<SetOutcome>>)(() => sets.JudgeAsync(c.Body, c.Seed, c.Flaw, c.Size)))],
            options.Jobs,
            outcome => outcome.Verdict >= options.Tell);
        int neither = outcomes.Count(o => o.Verdict == Verdict.Neither);
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"{outcomes.Count} sets of {flaws.Length} flaws by other laws, {options.Seeds} a size and body; neither: {neither}; printed though wrong, under a finding that names the flaw: {outcomes.Count(o => o.Verdict == Verdict.Printed)}.").AppendLine().AppendLine(Explanation);
        foreach (ForeignFlaw flaw in flaws)
        {
            IEnumerable<string> sizes = cells.Zip(outcomes).Where(p => p.First.Flaw == flaw).GroupBy(p => p.First.Size).Select(g => MatrixStudy.Summary(g.Key, [.. g.Select(p => p.Second)]));
            text.AppendLine(CultureInfo.InvariantCulture, $"| {flaw.Name} | {flaw.What} | {string.Join(", ", flaw.Codes.Select(c => $"`{c}`"))} | {string.Join(", ", sizes)} |");
        }

        return new StudyReport(text.ToString(), neither == 0);
    }
}
