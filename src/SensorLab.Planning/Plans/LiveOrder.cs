using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Planning.Plans;

/// <summary>A plan in the order that suits a set that is measured while it is shot: dark frames first, each bracket's widest steps before those between.</summary>
/// <remarks>
/// Dark frames say where black lies and which photosites are defective: with them, a lit level is measured for good as soon as it is
/// there. After the wide steps all figures of an ISO stand, if not yet as surely; the steps between may then no longer be needed.
/// </remarks>
public static class LiveOrder
{
    /// <summary>Of the bracket's steps, from dark to bright, every so many belong to the wide ones; the ends always do.</summary>
    private const int WideStep = 3;

    /// <summary>Orders a plan.</summary>
    /// <param name="plan">The plan.</param>
    /// <returns>The same frames, numbered anew.</returns>
    public static ShotPlan Of(ShotPlan plan)
    {
        PlanStep[] darks = [.. plan.Steps.Where(s => s.Role == RoleName.Dark)];
        PlanStep[] lit = [.. plan.Steps.Where(s => s.Role != RoleName.Dark)];
        if (darks.Length == 0 || lit.Length == 0)
        {
            return plan;
        }

        List<PlanStep> steps = [.. darks];
        steps.Add(lit[0] with { Actions = ["Cap off.", .. lit[0].Actions] });
        for (int i = 1; i < lit.Length;)
        {
            int end = i;
            while (end < lit.Length && IsPlain(lit[end]) && lit[end].Iso == lit[i].Iso && lit[end].Look == lit[i].Look && (end == i || lit[end].Actions.Count == 0))
            {
                end++;
            }

            steps.AddRange(end - i > WideStep ? Wide(lit[i..end]) : lit[i..Math.Max(end, i + 1)]);
            i = Math.Max(end, i + 1);
        }

        return plan with { Steps = [.. Numbered(steps)] };
    }

    private static bool IsPlain(PlanStep step) => step is { Role: RoleName.Bracket, LightStep: null, Ev: not null };

    private static IEnumerable<PlanStep> Wide(PlanStep[] bracket)
    {
        // What is to be done before the first of them is done before whichever comes first.
        IReadOnlyList<string> actions = bracket[0].Actions;
        PlanStep[] rising = [.. bracket.OrderBy(s => s.Ev)];
        HashSet<PlanStep> wide = [.. rising.Where((_, i) => i % WideStep == 0 || i == rising.Length - 1)];
        PlanStep[] ordered = [.. bracket.Where(wide.Contains), .. bracket.Where(s => !wide.Contains(s))];
        return ordered.Select((s, i) => s with { Actions = i == 0 ? actions : [] });
    }

    private static IEnumerable<PlanStep> Numbered(List<PlanStep> steps)
    {
        PlanStep? before = null;
        foreach ((int index, PlanStep step) in steps.Index())
        {
            string?[] dials =
            [
                step.Iso == before?.Iso ? null : string.Create(CultureInfo.InvariantCulture, $"ISO {step.Iso}"),
                step.Shutter == before?.Shutter ? null : $"shutter {step.Shutter}",
            ];
            yield return step with { Number = index + 1, Dials = dials.Any(d => d is not null) ? string.Join(", ", dials.OfType<string>()) : null };
            before = step;
        }
    }
}
