using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Shelf;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab shelf export</c>: the shelf's tables as Parquet.</summary>
/// <remarks>Written by DuckDB in a gigabyte of memory at most, the rest of the sorting on the disk. Stops between tables.</remarks>
internal sealed class ShelfExportCommand
{
    private static readonly string[] Examples = ["sensorlab shelf export --out shelf-parquet"];

    private readonly Option<string> _out = new("--out")
    {
        HelpName = "FOLDER",
        Description = "Where to: a folder that is missing or empty, or an earlier export, which is replaced when the new one is whole.",
        Required = true,
    };

    private readonly Option<string?> _shelf = ShelfOption.Create();

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private ShelfExportCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new ShelfExportCommand(workbench, terminal);
        var command = new ExampleCommand("export", "Writes the shelf's tables as Parquet, partitioned by maker and model, for DuckDB, Spark, Trino and others.", Examples)
        {
            words._out, words._shelf,
        };
        command.SetAction((parsed, cancellation) => Task.FromResult(words.Run(parsed, cancellation)));
        return command;
    }

    private int Run(ParseResult words, CancellationToken cancellation)
    {
        ProfileShelf shelf = ShelfPlace.Of(words.GetValue(_shelf), _workbench);
        string folder = words.GetRequiredValue(_out);
        OutputPlace.RequireFolder(folder);
        bool isMarred = ShelfIntakeText.Complain(_terminal, shelf.Export(folder, cancellation));
        _terminal.Output.WriteLine($"Tables of {shelf.Folder} as Parquet: {folder}");
        return isMarred ? ExitStatus.File : ExitStatus.Done;
    }
}
