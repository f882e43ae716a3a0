using SensorLab.Planning.Plans;
using SensorLab.Profiles;

namespace SensorLab.Assignment;

/// <summary>One frame that a plan asks for.</summary>
/// <param name="Place">Its place in the shooting order, from 0.</param>
/// <param name="Step">The step that it belongs to.</param>
/// <param name="FilterStops">Stops of light less than where its ISO was metered.</param>
internal sealed record PlanSlot(int Place, PlanStep Step, double FilterStops)
{
    /// <summary>The exposure time as thirds of a stop; null beyond the dial.</summary>
    public int? Thirds { get; } = ShutterTime.Nearest(Step.ExposureSeconds)?.Thirds;

    /// <summary>The frames of a plan.</summary>
    public static IReadOnlyList<PlanSlot> Of(ShotPlan plan)
    {
        var slots = new List<PlanSlot>();
        double? open = null;
        foreach (PlanStep step in plan.Steps)
        {
            open = step.Role == RoleName.Metered ? step.LightStops : open;
            double filter = step.Role == RoleName.Bracket && step.LightStops is { } stops ? Math.Max(0, (open ?? 0) - stops) : 0;
            for (int i = 0; i < step.Frames; i++)
            {
                slots.Add(new PlanSlot(slots.Count, step, filter));
            }
        }

        return slots;
    }
}
