using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Planning.Plans;

/// <summary>A frame set beside its plan: what is missing, what was shot twice, what was not planned.</summary>
/// <remarks>
/// Frames are told apart by role, ISO, exposure time to the nearest third of a stop, light step and light. Looks are counted
/// together, since files name them in their own way; metered frames at any time, since the light decides it.
/// </remarks>
public sealed record PlanComparison
{
    /// <summary>The protocol's name.</summary>
    public required string Protocol { get; init; }

    /// <summary>The protocol's version.</summary>
    public required int ProtocolVersion { get; init; }

    /// <summary>What to shoot to finish, in shooting order; empty where nothing is missing.</summary>
    public required IReadOnlyList<PlanStep> Missing { get; init; }

    /// <summary>Settings shot more often than planned: no harm, more frames only narrow the figures.</summary>
    public required IReadOnlyList<PlanExcess> ShotTwice { get; init; }

    /// <summary>Files that the plan does not hold.</summary>
    public required IReadOnlyList<string> NotPlanned { get; init; }

    /// <summary>Compares.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="frames">The frames that can be read.</param>
    public static PlanComparison Of(ShotPlan plan, IReadOnlyList<ShotFrame> frames)
    {
        ILookup<Setting, ShotFrame> shot = frames.Where(f => Setting.Of(f) is not null).ToLookup(f => Setting.Of(f)!.Value);
        Dictionary<Setting, int> left = shot.ToDictionary(g => g.Key, g => g.Count());
        List<PlanStep> missing = [];
        foreach (PlanStep step in plan.Steps)
        {
            Setting setting = Setting.Of(step);
            int have = left.GetValueOrDefault(setting);
            int used = Math.Min(have, step.Frames);
            left[setting] = have - used;
            if (used < step.Frames)
            {
                missing.Add(step with { Frames = step.Frames - used });
            }
        }

        HashSet<Setting> planned = [.. plan.Steps.Select(Setting.Of)];
        return new PlanComparison
        {
            Protocol = plan.Protocol,
            ProtocolVersion = plan.ProtocolVersion,
            Missing = [.. InOrder(missing)],
            ShotTwice = [.. left.Where(l => l.Value > 0 && planned.Contains(l.Key)).Select(l => Excess(plan, l.Key, l.Value)).OrderBy(e => e.Iso).ThenBy(e => e.Role, StringComparer.Ordinal).ThenBy(e => e.Shutter, StringComparer.Ordinal)],
            NotPlanned = [.. frames.Where(f => Setting.Of(f) is not { } s || !planned.Contains(s)).Select(f => f.File).Order(StringComparer.Ordinal)],
        };
    }

    /// <summary>The steps renumbered, each with what has to be done before it in this shorter list.</summary>
    private static IEnumerable<PlanStep> InOrder(List<PlanStep> missing)
    {
        PlanStep? before = null;
        foreach ((int index, PlanStep step) in missing.Index())
        {
            yield return step with
            {
                Number = index + 1,
                Dials = string.Create(CultureInfo.InvariantCulture, $"ISO {step.Iso}, shutter {step.Shutter}"),
                Actions = [.. ActionsOf(step, before)],
            };
            before = step;
        }
    }

    private static IEnumerable<string> ActionsOf(PlanStep step, PlanStep? before)
    {
        if (step.Role == RoleName.Dark)
        {
            if (before?.Role != RoleName.Dark)
            {
                yield return StepList.CapOn;
            }

            yield break;
        }

        if (step.Light != before?.Light && step.Light is { } light)
        {
            yield return $"Light the field with {light} alone. Frames go to light/{light}.";
        }

        if (RoleName.IsAtMetersZero(step.Role) && (before?.Role != step.Role || before.Iso != step.Iso))
        {
            yield return "Turn the light up from too dark until the spot meter hovers between 0 and +1/3 at this time; one click faster it hovers between 0 and -1/3.";
        }
        else if (step.LightStep is { } name && (before?.LightStep != name || before.Iso != step.Iso))
        {
            yield return $"The light as it was for lightStep \"{name}\"; sensorlab assign writes the name. Where it was shot already, only the name may be missing.";
        }
        else if (step.Role == RoleName.Bracket && (before?.Iso != step.Iso || before.LightStep is not null))
        {
            yield return "The light as it was for this ISO; where it has been moved since, sensorlab assign gives it a light step of its own.";
        }
    }

    private static PlanExcess Excess(ShotPlan plan, Setting setting, int frames)
    {
        PlanStep step = plan.Steps.First(s => Setting.Of(s) == setting);
        return new PlanExcess(step.Role, step.Iso, step.Shutter, step.LightStep, frames);
    }

    private readonly record struct Setting(string Role, int Iso, int? Thirds, string LightStep, string Light)
    {
        public static Setting Of(PlanStep step) => Of(step.Role, step.Iso, step.ExposureSeconds, step.LightStep, step.Light)!.Value;

        public static Setting? Of(ShotFrame frame) => frame is { Role: { } role, Iso: { } iso, ExposureSeconds: { } seconds }
            ? Of(role, iso, seconds, frame.LightStep, frame.Light)
            : null;

        private static Setting? Of(string role, int iso, double seconds, string? lightStep, string? light)
        {
            bool isMetered = RoleName.IsAtMetersZero(role);
            int? thirds = isMetered ? null : ShutterTime.Nearest(seconds)?.Thirds;
            return isMetered || thirds is not null
                ? new Setting(role, iso, thirds, role == RoleName.Bracket ? Plain(lightStep) : string.Empty, role == RoleName.Light ? Plain(light) : string.Empty)
                : null;
        }

        private static string Plain(string? word) => (word ?? string.Empty).Trim().ToUpperInvariant();
    }
}
