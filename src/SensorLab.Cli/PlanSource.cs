using SensorLab.Planning.Plans;

namespace SensorLab.Cli;

/// <summary>Where a plan comes from: its own file, and nothing that only looks like one.</summary>
internal static class PlanSource
{
    /// <summary>Reads a plan.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="PlanFormatException">It is no plan; what it is instead is said.</exception>
    /// <exception cref="IOException">It cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public static ShotPlan Read(string path)
    {
        if (Directory.Exists(path) && File.Exists(Path.Combine(path, "plan.json")))
        {
            throw new PlanFormatException($"{path} is no plan but a folder; the plan in it is {Path.Combine(path, "plan.json")}.");
        }

        try
        {
            return ShotPlanDocument.ReadFile(path);
        }
        catch (PlanFormatException e) when (InputKind.Of(path) is { } kind && kind != InputKind.Plan)
        {
            throw new PlanFormatException($"{path} is no plan but {kind}.", e);
        }
    }
}
