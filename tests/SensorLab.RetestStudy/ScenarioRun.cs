using System.Globalization;
using SensorLab.Retest;

namespace SensorLab.RetestStudy;

/// <summary>All pairs of a scenario, and how often each verdict fell.</summary>
internal sealed class ScenarioRun
{
    /// <summary>One pair in ten is drawn pixel by pixel where a scenario asks for it.</summary>
    private const int PixelsEvery = 10;

    private readonly Scenario _scenario;
    private readonly PairOutcome[] _pairs;

    private ScenarioRun(Scenario scenario, PairOutcome[] pairs) => (_scenario, _pairs) = (scenario, pairs);

    /// <summary>Binomial chance of a miss by luck alone is kept apart: a goal is missed where the rate is above it.</summary>
    public IReadOnlyList<string> Misses =>
    [
        .. _scenario.MostChanged < Share(RetestVerdict.Changed) ? ["changed too often"] : Array.Empty<string>(),
        .. _scenario.MostEquivalent < Share(RetestVerdict.Equivalent) ? ["equivalent too often"] : Array.Empty<string>(),
        .. _scenario.MostUndecided < Share(RetestVerdict.Undecided) ? ["undecided too often"] : Array.Empty<string>(),
        .. _pairs.Any(p => p.OpenBeyondInterval > 0) ? ["open though twice the interval"] : Array.Empty<string>(),
        .. _scenario.IsNamed is not null && Math.Min(Share(RetestVerdict.Changed), Named) < 0.95 ? ["found too seldom"] : Array.Empty<string>(),
    ];

    private double Named => _pairs.Count(p => p.IsNamed) / (double)_pairs.Length;

    /// <summary>
    /// Runs scenarios pair by pair: those of one setting are judged by the same earlier sets and repeats, so that their rows
    /// share their luck, while the pairs of a row share nothing.
    /// </summary>
    /// <param name="scenarios">What is tried.</param>
    /// <param name="pairs">How many pairs each.</param>
    /// <param name="jobs">How many at a time.</param>
    public static IEnumerable<ScenarioRun> Of(IReadOnlyList<Scenario> scenarios, int pairs, int jobs) =>
        scenarios.GroupBy(s => (s.Setting, s.WithPixels)).SelectMany((alike, number) => OfSetting([.. alike], pairs, number + 1, jobs));

    private static IEnumerable<ScenarioRun> OfSetting(Scenario[] scenarios, int pairs, int salt, int jobs)
    {
        var outcomes = new PairOutcome[pairs][];
        Parallel.For(0, pairs, new ParallelOptions { MaxDegreeOfParallelism = jobs }, i =>
        {
            var sets = new PairSets(scenarios[0].Setting, scenarios[0].WithPixels && i % PixelsEvery == 0, (salt * 1_000_000) + (i * 10));
            outcomes[i] = [.. scenarios.Select(s => PairOutcome.Of(ProfileComparison.Of(sets.Before, sets.After(s.After), sets.Repeats(s.Repeats), RetestMargins.Default), s))];
        });
        return scenarios.Select((s, number) => new ScenarioRun(s, [.. outcomes.Select(o => o[number])]));
    }

    public string Row()
    {
        string named = _scenario.IsNamed is null ? "–" : Percent(Named);
        return $"| {_scenario.Name} | {_pairs.Length} | {Percent(Share(RetestVerdict.Equivalent))} | {Percent(Share(RetestVerdict.Undecided))} | {Percent(Share(RetestVerdict.Changed))} | {named} | {_pairs.Sum(p => p.OpenBeyondInterval)} | {string.Join(", ", Misses)} |";
    }

    /// <summary>What was called changed, and which figures most often stayed undecided, for whoever looks into a miss.</summary>
    public string Detail() => $"changed: {MostOften(_pairs.SelectMany(p => p.Changed))}; undecided: {MostOften(_pairs.SelectMany(p => p.Undecided))}";

    private static string MostOften(IEnumerable<string> names) => string.Join(", ", names
        .GroupBy(n => n)
        .OrderByDescending(g => g.Count())
        .Take(6)
        .Select(g => string.Create(CultureInfo.InvariantCulture, $"{g.Key} {g.Count()}")));

    private double Share(RetestVerdict verdict) => _pairs.Count(p => p.Verdict == verdict) / (double)_pairs.Length;

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{100 * share:0.0}");
}
