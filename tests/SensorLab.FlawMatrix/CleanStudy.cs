using System.Globalization;
using System.Text;
using SensorLab.Profiles;

namespace SensorLab.FlawMatrix;

/// <summary>Sets of six bodies with nothing wrong: how many are accused of something.</summary>
internal static class CleanStudy
{
    /// <summary>The goal of section 11: fewer than one set in a hundred.</summary>
    private const double LargestShare = 0.01;

    /// <summary>Runs the clean sets.</summary>
    public static async Task<StudyReport> RunAsync(StudyOptions options)
    {
        (MatrixBody Body, ulong Seed)[] cells =
        [
            .. from body in options.BodiesOr(MatrixBody.All)
               from seed in Enumerable.Range(options.FirstSeed, options.CleanSets)
               select (body, (ulong)seed),
        ];
        IReadOnlyList<SetOutcome> outcomes = await SetPool.RunAsync(
            [.. cells.Select(c => (Func<Task<SetOutcome>>)(() => RunAsync(c.Body, c.Seed, options.Scale)))],
            options.Jobs,
            outcome => outcome.Verdict >= options.Tell);
        int alarms = outcomes.Count(o => o.Verdict == Verdict.Neither);
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"{outcomes.Count} clean sets of three ISOs; with a warning: {alarms} ({100.0 * alarms / outcomes.Count:F1} %).").AppendLine();
        text.AppendLine("| body | sets | with a warning | notes, share of the sets |").AppendLine("| --- | ---: | ---: | --- |");
        foreach (IGrouping<string, SetOutcome> body in outcomes.GroupBy(o => o.Body))
        {
            IEnumerable<string> notes = body
                .SelectMany(o => o.Findings.Where(f => f.Severity == FindingSeverity.Note).Select(f => f.Code).Distinct())
                .GroupBy(code => code)
                .Select(g => string.Create(CultureInfo.InvariantCulture, $"`{g.Key}` {100.0 * g.Count() / body.Count():F0} %"));
            text.AppendLine(CultureInfo.InvariantCulture, $"| {body.Key} | {body.Count()} | {body.Count(o => o.Verdict == Verdict.Neither)} | {string.Join(", ", notes)} |");
        }

        return new StudyReport(text.ToString(), alarms < LargestShare * outcomes.Count);
    }

    /// <summary>A clean set; neither stands for a set that is accused, or that fails.</summary>
    private static async Task<SetOutcome> RunAsync(MatrixBody body, ulong seed, int scale)
    {
        RehearsedSet set = await RehearsedSet.RunAsync(body.Body, MatrixBody.SeriesOfIsos, seed, [], scale);
        bool accused = set.Failure is not null || set.Findings.Any(f => f.Severity != FindingSeverity.Note);
        return new SetOutcome("clean", body.Name, seed, accused ? Verdict.Neither : Verdict.Right, false, set.Failure is { } failure ? [failure] : [], set.Findings);
    }
}
