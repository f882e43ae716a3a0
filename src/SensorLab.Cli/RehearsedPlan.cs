using SensorLab.Frames;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Cli;

/// <summary>A plan in the simulator's words.</summary>
internal static class RehearsedPlan
{
    // What hands take for one action of a plan, in seconds; only the frames' times hang on it.
    private const double SecondsAnAction = 40;

    /// <summary>The plan's steps as shots.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="isos">The ISOs to shoot; empty for all.</param>
    /// <exception cref="UsageException">The plan lacks an ISO that was asked for.</exception>
    public static IReadOnlyList<ScriptedShot> Of(ShotPlan plan, IReadOnlyList<int> isos)
    {
        int[] missing = [.. isos.Except(plan.Isos)];
        if (missing.Length > 0)
        {
            throw new UsageException($"--iso: the plan has no ISO {string.Join(", ", missing)}; it has {string.Join(", ", plan.Isos)}.");
        }

        var script = new List<ScriptedShot>();
        double? openStops = null;
        foreach (PlanStep step in plan.Steps)
        {
            if (step.Role == RoleName.Metered)
            {
                openStops = step.LightStops;
            }

            if (isos.Count == 0 || isos.Contains(step.Iso))
            {
                script.Add(ShotOf(step, openStops));
            }
        }

        return script;
    }

    private static ScriptedShot ShotOf(PlanStep step, double? openStops)
    {
        FrameRole role = Enum.Parse<FrameRole>(step.Role, ignoreCase: true);
        return new ScriptedShot
        {
            Role = role,
            Iso = step.Iso,
            ExposureSeconds = step.ExposureSeconds,
            Frames = step.Frames,
            TrimEv = role is FrameRole.Metered or FrameRole.Light ? step.Ev ?? 0 : 0,
            FilterStops = role == FrameRole.Bracket ? (openStops ?? 0) - (step.LightStops ?? 0) : 0,
            LightStep = step.LightStep,
            Light = step.Light,
            Look = step.Look,
            PauseSeconds = SecondsAnAction * step.Actions.Count,
        };
    }
}
