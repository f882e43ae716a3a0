using System.CommandLine;

namespace SensorLab.Cli.Arguments;

/// <summary>The option <c>--figure</c>.</summary>
internal static class ShelfFigureOption
{
    private const string Watched = "A figure as profiles name it, as aboveEv or readNoiseElectron; it may be cut, as belowEv. Without it where the latitude ends, and green's read noise.";

    public static Option<string?> Create(string description = Watched) => new("--figure")
    {
        HelpName = "NAME",
        Description = description,
    };
}
