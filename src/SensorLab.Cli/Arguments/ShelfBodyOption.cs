using System.CommandLine;

namespace SensorLab.Cli.Arguments;

/// <summary>The option <c>--body</c>.</summary>
internal static class ShelfBodyOption
{
    public static Option<string?> Create() => new("--body")
    {
        HelpName = "TEXT",
        Description = "A body: its serial number, or words of its name.",
    };
}
