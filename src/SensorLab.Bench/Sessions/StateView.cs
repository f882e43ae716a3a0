using SensorLab.Bench.Api;
using SensorLab.Live;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.Reports;

namespace SensorLab.Bench.Sessions;

/// <summary>What the page shows of an open set.</summary>
internal static class StateView
{
    /// <summary>The name of the lamp's chart, which is of the frames and not of the profile.</summary>
    public const string LampName = "lamp";

    private const int LatestShown = 12;

    /// <summary>The state with all that the set tells now.</summary>
    /// <param name="state">The state so far: what was said, and how far the finish is, stays.</param>
    /// <param name="set">The set.</param>
    /// <param name="wanted">How sure figures are to be.</param>
    /// <returns>The same state before the first look.</returns>
    public static BenchState Of(BenchState state, OpenSet set, IReadOnlyDictionary<string, double> wanted)
    {
        if (set.Card is not { } card)
        {
            return state;
        }

        SensorProfile? profile = set.Figures?.Profile;
        IEnumerable<int> shotIsos = card.Frames.Where(f => f.Role != "none").Select(f => f.Iso).OfType<int>().Distinct().Order();
        int[] isos = [.. set.Plan?.Isos ?? shotIsos];
        (IsoGoal Goal, IReadOnlyList<PlanStep> Further)[] goals = [.. isos.Select(iso => WantedFigures.Judge(iso, profile, card.Missing, wanted))];
        HashSet<int> enough = [.. goals.Where(g => g.Goal.IsEnough).Select(g => g.Goal.Iso)];
        PlanStep[] missing = [.. card.Missing.Where(s => !enough.Contains(s.Iso))];
        int? latestStep = card.Frames.LastOrDefault(f => f.Step is not null && f.Role != "none")?.Step;
        LiveFrame[] newest = [.. card.Frames.Reverse()];
        Finding[] findings = [.. set.Refused, .. card.Findings, .. set.Figures?.Findings ?? []];
        return state with
        {
            IsLooked = true,
            Frames = new FrameCounts(card.Frames.Count + card.Refused.Count, card.Frames.Count(f => f.Role != "none"), card.Refused.Count),
            Next = set.Plan is not { } plan ? null : ShotGuide.Next(plan, missing, [.. goals.SelectMany(g => g.Further)], latestStep),
            Levels = LevelList.Of(set.Plan, card, profile, enough),
            Figures = profile is null ? [] : WantedFigures.Of(profile, wanted),
            Isos = [.. goals.Select(g => g.Goal)],
            Findings = state.Phase == "done" ? state.Findings : [.. findings.DistinctBy(f => (f.Code, f.Iso, f.Message)).Select(BriefOf)],
            Latest = [.. newest.Where((f, i) => i < LatestShown || f.Flaws.Count > 0).Select(BriefOf)],
            Questions = [.. card.Questions.Select(q => new QuestionBrief(q.Files, q.Question))],
            Waiting = card.Waiting,
            Charts = set.Profile is { } drawn ? [.. ReportCharts.Names(drawn), LampName] : [],
            LevelsMeasured = set.Figures?.LevelsMeasured ?? 0,
        };
    }

    /// <summary>A frame in short.</summary>
    public static FrameBrief BriefOf(LiveFrame f) =>
        new(f.File, f.Role, f.Iso, f.Shutter, f.LightStep ?? f.Light, f.IsSure, f.Why, f.SignalShare, f.LightEv, [.. f.Flaws.Select(x => new FlawBrief(x.Code, x.Message, x.Remedy, x.ShootAgain))]);

    /// <summary>A finding in short.</summary>
    public static FindingBrief BriefOf(Finding f) =>
        new(f.Code, f.Severity.ToString().ToLowerInvariant(), f.Iso, f.Channel, f.Frames, f.Size, f.SizeUnit, f.Message, f.Remedy);
}
