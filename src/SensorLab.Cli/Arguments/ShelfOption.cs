using System.CommandLine;

namespace SensorLab.Cli.Arguments;

/// <summary>The option <c>--shelf</c>.</summary>
internal static class ShelfOption
{
    public static Option<string?> Create() => new("--shelf")
    {
        HelpName = "FOLDER",
        Description = "The shelf; without it the one of your settings, or the one in your data folder.",
    };
}
