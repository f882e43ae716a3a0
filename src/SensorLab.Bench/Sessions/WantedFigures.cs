using System.Globalization;
using SensorLab.Bench.Api;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;

namespace SensorLab.Bench.Sessions;

/// <summary>How sure each figure is to be, and whether an ISO has enough.</summary>
/// <remarks>
/// Goals are half the 95 % interval of this set's own sampling: that is what more frames narrow. What the meter or the shutter adds,
/// more frames of one reading do not.
/// </remarks>
internal static class WantedFigures
{
    /// <summary>The SNR at which texture ends.</summary>
    private const double ShadowSnr = 10;

    /// <summary>Exposures with two frames that a response is judged by.</summary>
    private const int FewestExposures = 5;

    /// <summary>More frames than this are not asked for at one time: what so many do not reach, they are not the means to.</summary>
    private const int MostFurther = 40;

    /// <summary>Findings that speak against leaving frames out.</summary>
    private static readonly string[] Doubts =
    [
        FindingCode.LightDrift, FindingCode.LightFlicker, FindingCode.LightBanded, FindingCode.MeteredDoubtful, FindingCode.ModelRejected,
        FindingCode.ResponseNonlinear, FindingCode.ExposureInexact, FindingCode.BlackDrift, FindingCode.LevelsTooFew,
    ];

    private static readonly Wanted[] All =
    [
        new("gain", "System gain", "e⁻/DN", "%", 1, iso => Green(iso)?.GainElectronPerDn, IsRelative: true, IsOfDarks: false),
        new("readNoise", "Read noise", "e⁻", "%", 2, iso => Green(iso)?.ReadNoiseElectron, IsRelative: true, IsOfDarks: true),
        new("aboveEv", "Clip above middle grey", "EV", "EV", 0.03, iso => iso.Latitude.AboveEv, IsRelative: false, IsOfDarks: false),
        new("belowEv", "Texture below middle grey (SNR 10)", "EV", "EV", 0.03, iso => iso.Latitude.BelowEv.FirstOrDefault(b => b.Snr == ShadowSnr)?.PerPixel, IsRelative: false, IsOfDarks: true),
    ];

    /// <summary>What matters on location, unless the user says otherwise.</summary>
    public static IReadOnlyDictionary<string, double> Defaults { get; } = All.ToDictionary(w => w.Name, w => w.Default, StringComparer.Ordinal);

    /// <summary>The figures of a profile beside their goals.</summary>
    /// <param name="profile">The profile so far.</param>
    /// <param name="wanted">The goals.</param>
    public static IReadOnlyList<FigureBrief> Of(SensorProfile profile, IReadOnlyDictionary<string, double> wanted) =>
        [.. profile.IsoProfiles.SelectMany(iso => All.Select(w => BriefOf(iso, w, wanted[w.Name])))];

    /// <summary>Whether an ISO has enough, and what it lacks.</summary>
    /// <param name="iso">The ISO.</param>
    /// <param name="profile">The profile so far; null where there is none.</param>
    /// <param name="missing">The plan's steps that frames are missing of.</param>
    /// <param name="wanted">The goals.</param>
    /// <returns>The goal, and the steps that are asked for beyond the plan.</returns>
    public static (IsoGoal Goal, IReadOnlyList<PlanStep> Further) Judge(int iso, SensorProfile? profile, IReadOnlyList<PlanStep> missing, IReadOnlyDictionary<string, double> wanted)
    {
        PlanStep[] own = [.. missing.Where(s => s.Iso == iso)];
        if (profile?.IsoProfiles.FirstOrDefault(i => i.Iso == iso) is not { } measured)
        {
            return (new IsoGoal(iso, false, 0, own.Length == 0 ? "Being measured." : "Not measured yet."), []);
        }

        FigureBrief[] figures = [.. All.Select(w => BriefOf(measured, w, wanted[w.Name]))];
        FigureBrief[] open = [.. figures.Where(f => !f.IsReached)];
        Finding? doubt = profile.Findings.FirstOrDefault(f => (f.Iso is null || f.Iso == iso) && f.Severity != FindingSeverity.Note && Doubts.Contains(f.Code));
        bool isBase = !own.Any(s => s.Role != RoleName.Bracket || s.Look is not null);
        if (open.Length == 0 && isBase && doubt is null && measured.Levels.Count(l => l.Role == RoleName.Bracket && l.Frames > 1) >= FewestExposures)
        {
            int skipped = own.Sum(s => s.Frames);
            return (new IsoGoal(iso, true, skipped, skipped == 0 ? "Enough: every wanted figure stands." : string.Create(CultureInfo.InvariantCulture, $"Enough: every wanted figure stands; {skipped} frames of the plan can be left out.")), []);
        }

        if (own.Length > 0)
        {
            string what = open.Length > 0 ? $"Still open: {string.Join(", ", open.Select(f => f.Label))}." : doubt is not null ? $"The figures stand, but: {doubt.Message}" : "The figures stand; the plan's own steps remain.";
            return (new IsoGoal(iso, false, 0, what), []);
        }

        return Further(measured, open);
    }

    private static (IsoGoal Goal, IReadOnlyList<PlanStep> Further) Further(IsoProfile iso, FigureBrief[] open)
    {
        if (open.Length == 0)
        {
            return (new IsoGoal(iso.Iso, true, 0, "The plan is shot, and every wanted figure stands."), []);
        }

        var steps = new List<PlanStep>();
        foreach (bool isDark in open.Select(f => All.Single(w => w.Name == f.Name).IsOfDarks).Distinct())
        {
            LevelRecord[] levels = [.. iso.Levels.Where(l => isDark ? l.Role == RoleName.Dark : l.Role == RoleName.Bracket)];
            double ratio = open.Where(f => All.Single(w => w.Name == f.Name).IsOfDarks == isDark && f.Uncertainty is not null).Select(f => f.Uncertainty!.Value / f.Wanted).DefaultIfEmpty(1).Max();
            int frames = (int)Math.Ceiling(levels.Sum(l => l.Frames) * ((ratio * ratio) - 1));
            LevelRecord? level = isDark ? levels.MinBy(l => l.ExposureSeconds) : levels.Where(l => l.Channels.All(c => c.ClippedFraction <= 0)).MaxBy(l => l.ExposureSeconds);
            if (frames is > 0 and <= MostFurther && level is not null && ShutterTime.Nearest(level.ExposureSeconds) is { } time)
            {
                steps.Add(new PlanStep { Number = 0, Role = level.Role, Iso = iso.Iso, Shutter = time.Label, ExposureSeconds = time.EngravedSeconds, Frames = frames, LightStep = level.LightStep, Actions = isDark ? ["Cap on the lens, eyepiece covered, the room dimmed."] : ["The light as it was for this ISO."] });
            }
        }

        string labels = string.Join(", ", open.Select(f => f.Label));
        string words = steps.Count > 0
            ? $"The plan is shot, but these are less sure than wanted: {labels}. More frames would do: {string.Join(" and ", steps.Select(s => string.Create(CultureInfo.InvariantCulture, $"{s.Frames} {s.Role} frames at {s.Shutter}")))}."
            : $"The plan is shot, but these are less sure than wanted, or not reached: {labels}. More of the same frames would not do: see what is said of the light and the range.";
        return (new IsoGoal(iso.Iso, false, 0, words), steps);
    }

    private static ChannelProfile? Green(IsoProfile iso) => iso.Channels.FirstOrDefault(c => ChannelName.LeadsPool(c.Name)) ?? (iso.Channels.Count > 0 ? iso.Channels[0] : null);

    private static FigureBrief BriefOf(IsoProfile iso, Wanted wanted, double goal)
    {
        Figure? figure = wanted.Of(iso);
        double? half = figure is { Lower95: { } lower, Upper95: { } upper } ? (upper - lower) / 2 : null;
        double? uncertainty = wanted.IsRelative ? 100 * half / Math.Abs(figure?.Value ?? double.NaN) : half;
        return new FigureBrief(iso.Iso, wanted.Name, wanted.Label, figure?.Value, figure?.AtLeast, figure?.AtMost, wanted.Unit, uncertainty is { } u && double.IsFinite(u) ? u : null, goal, wanted.WantedUnit, uncertainty <= goal);
    }

    private sealed record Wanted(string Name, string Label, string Unit, string WantedUnit, double Default, Func<IsoProfile, Figure?> Of, bool IsRelative, bool IsOfDarks);
}
