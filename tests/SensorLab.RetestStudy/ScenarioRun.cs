using System.Globalization;
using SensorLab.Retest;
using SensorLab.Profiles;

namespace SensorLab.RetestStudy;

/// <summary>All pairs of a scenario, and how often each verdict fell.</summary>
internal sealed class ScenarioRun
{
    /// <summary>One pair in ten is drawn pixel by pixel where a scenario asks for it.</summary>
    private const int PixelsEvery = 10;

    private readonly Scenario _scenario;
    private readonly RetestResult[] _results;

    private ScenarioRun(Scenario scenario, RetestResult[] results) => (_scenario, _results) = (scenario, results);

    /// <summary>Binomial chance of a miss by luck alone is kept apart: a goal is missed where the rate is above it.</summary>
    public IReadOnlyList<string> Misses =>
    [
        .. _scenario.MostChanged < Share(RetestVerdict.Changed) ? ["changed too often"] : Array.Empty<string>(),
        .. _scenario.MostEquivalent < Share(RetestVerdict.Equivalent) ? ["equivalent too often"] : Array.Empty<string>(),
        .. _scenario.MostUndecided < Share(RetestVerdict.Undecided) ? ["undecided too often"] : Array.Empty<string>(),
        .. _scenario.IsNamed is not null && Math.Min(Share(RetestVerdict.Changed), Named) < 0.95 ? ["found too seldom"] : Array.Empty<string>(),
    ];

    private double Named => _scenario.IsNamed is { } isNamed ? _results.Count(isNamed) / (double)_results.Length : double.NaN;

    public static ScenarioRun Of(Scenario scenario, int pairs, int salt, int jobs)
    {
        var results = new RetestResult[pairs];
        Parallel.For(0, pairs, new ParallelOptions { MaxDegreeOfParallelism = jobs }, i =>
        {
            int seed = (salt * 1_000_000) + (i * 10);
            Func<StudyBody, string, int, SensorProfile> shoot = scenario.WithPixels && i % PixelsEvery == 0
                ? PixelSet.Shoot
                : (body, firmware, own) => StudySet.Shoot(body, scenario.Setting, firmware, own);
            SensorProfile before = shoot(StudyBody.Unchanged, "1.1", seed);
            SensorProfile after = shoot(scenario.After, "1.2", seed + 1);
            SensorProfile[] repeats = [.. Enumerable.Range(0, scenario.Repeats).Select(r => shoot(StudyBody.Unchanged, "1.1", seed + 2 + r))];
            results[i] = ProfileComparison.Of(before, after, repeats, RetestMargins.Default);
        });
        return new ScenarioRun(scenario, results);
    }

    public string Row()
    {
        string named = _scenario.IsNamed is null ? "–" : Percent(Named);
        return $"| {_scenario.Name} | {_results.Length} | {Percent(Share(RetestVerdict.Equivalent))} | {Percent(Share(RetestVerdict.Undecided))} | {Percent(Share(RetestVerdict.Changed))} | {named} | {string.Join(", ", Misses)} |";
    }

    /// <summary>What was called changed, and which figures most often stayed undecided, for whoever looks into a miss.</summary>
    public string Detail()
    {
        IEnumerable<string> changed = _results.SelectMany(r => r.Figures.Where(f => f.Verdict == RetestVerdict.Changed).Select(f => f.Address.Name).Concat(r.Changes.Select(c => c.Code)));
        IEnumerable<string> open = _results.SelectMany(r => r.Figures.Where(f => f.Verdict == RetestVerdict.Undecided).Select(f => f.Address.Name));
        return $"changed: {MostOften(changed)}; undecided: {MostOften(open)}";
    }

    private static string MostOften(IEnumerable<string> names) => string.Join(", ", names
        .GroupBy(n => n)
        .OrderByDescending(g => g.Count())
        .Take(6)
        .Select(g => string.Create(CultureInfo.InvariantCulture, $"{g.Key} {g.Count()}")));

    private double Share(RetestVerdict verdict) => _results.Count(r => r.Verdict == verdict) / (double)_results.Length;

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{100 * share:0.0}");
}
