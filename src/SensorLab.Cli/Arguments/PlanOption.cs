using System.CommandLine;

namespace SensorLab.Cli.Arguments;

/// <summary>The option <c>--plan</c> of the commands that read frame sets.</summary>
internal static class PlanOption
{
    public static Option<string?> Create() => new("--plan")
    {
        HelpName = "PLAN.json",
        Description = "The plan.json that the set was shot by: tell what is missing, what was shot twice, and what to shoot to finish.",
    };
}
