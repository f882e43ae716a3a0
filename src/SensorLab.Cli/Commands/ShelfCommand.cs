using System.CommandLine;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab shelf</c>: profiles kept, their history, and a team's questions.</summary>
internal static class ShelfCommand
{
    private const string Description =
        "Keeps profiles, each once and as it is: what there is of every body, how its figures went, what it lacks. "
        + "Wherever PROFILE.json stands, shelf:BODY takes the newest profile of that body.";

    private static readonly string[] Examples =
    [
        "sensorlab shelf add skerry-lm2.json colleague-lm2.zip",
        "sensorlab shelf list",
        "sensorlab shelf history --body 20417 --iso 800",
        "sensorlab place shelf:20417 --iso 800 --tone 2",
    ];

    public static Command Create(Workbench workbench, Terminal terminal) => new ExampleCommand("shelf", Description, Examples)
    {
        ShelfAddCommand.Create(workbench, terminal),
        ShelfListCommand.Create(workbench, terminal),
        ShelfHistoryCommand.Create(workbench, terminal),
        ShelfModelCommand.Create(workbench, terminal),
        ShelfMeasureCommand.Create(workbench, terminal),
        ShelfExportCommand.Create(workbench, terminal),
        ShelfRebuildCommand.Create(workbench, terminal),
    };
}
