using SensorLab.Bench.Api;
using SensorLab.Live;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;

namespace SensorLab.Bench.Sessions;

/// <summary>The settings of a set: those of the plan in its order, then those that were shot beside it.</summary>
internal static class LevelList
{
    /// <summary>Lists the settings.</summary>
    /// <param name="plan">The plan; null without.</param>
    /// <param name="card">The frames.</param>
    /// <param name="profile">The profile so far; null where there is none.</param>
    /// <param name="enough">ISOs that have enough.</param>
    public static IReadOnlyList<LevelBrief> Of(ShotPlan? plan, LiveCard card, SensorProfile? profile, IReadOnlySet<int> enough)
    {
        var shot = card.Frames.Where(f => f.Role != "none" && f is { Iso: not null, Shutter: not null }).GroupBy(f => (f.Role, Iso: f.Iso!.Value, f.Shutter, f.LightStep, f.Light)).ToDictionary(g => g.Key, g => g.ToArray());
        var levels = new List<LevelBrief>();
        foreach (var step in (plan?.Steps ?? []).GroupBy(s => (s.Role, s.Iso, Shutter: (string?)s.Shutter, s.LightStep, s.Light)))
        {
            shot.Remove(step.Key, out LiveFrame[]? frames);
            levels.Add(Brief(step.Key, frames ?? [], step.Sum(s => s.Frames), profile, enough));
        }

        levels.AddRange(shot.OrderBy(s => s.Key.Iso).ThenBy(s => s.Key.Role, StringComparer.Ordinal).ThenBy(s => s.Value[0].ExposureSeconds).Select(s => Brief(s.Key, s.Value, null, profile, enough)));
        return levels;
    }

    private static LevelBrief Brief((string Role, int Iso, string? Shutter, string? LightStep, string? Light) key, LiveFrame[] frames, int? wanted, SensorProfile? profile, IReadOnlySet<int> enough)
    {
        LevelRecord? record = profile?.IsoProfiles.FirstOrDefault(i => i.Iso == key.Iso)?.Levels.FirstOrDefault(l =>
            l.Role == key.Role && l.LightStep == key.LightStep && l.Light == key.Light && ShutterTime.Nearest(l.ExposureSeconds)?.Label == key.Shutter && l.Frames >= frames.Length);
        return new LevelBrief
        {
            Role = key.Role,
            Iso = key.Iso,
            Shutter = key.Shutter!,
            ExposureSeconds = frames.FirstOrDefault()?.ExposureSeconds,
            LightStep = key.LightStep,
            Light = key.Light,
            Frames = frames.Length,
            Wanted = wanted,
            Ev = record?.Ev,
            SignalShare = frames.Select(f => f.SignalShare).FirstOrDefault(s => s is not null),
            State = record is not null && frames.Length > 0 ? "measured" : frames.Length > 0 ? "shot" : enough.Contains(key.Iso) ? "skipped" : "open",
        };
    }
}
