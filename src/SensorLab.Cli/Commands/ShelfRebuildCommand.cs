using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Shelf;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab shelf rebuild</c>: the index made anew from the profiles.</summary>
/// <remarks>Reads every profile of the shelf, in batches that memory holds. Stops between batches; the old index stays.</remarks>
internal sealed class ShelfRebuildCommand
{
    private static readonly string[] Examples = ["sensorlab shelf rebuild", "sensorlab shelf rebuild --shelf team-shelf"];

    private readonly Option<string?> _shelf = ShelfOption.Create();

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private ShelfRebuildCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new ShelfRebuildCommand(workbench, terminal);
        var command = new ExampleCommand(
            "rebuild",
            "Makes the shelf's index anew from the profiles' own files, and requires that each is the one that was kept; exit status 4 where one is not.",
            Examples)
        {
            words._shelf,
        };
        command.SetAction(words.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult words, CancellationToken cancellation)
    {
        ProfileShelf shelf = ShelfPlace.Of(words.GetValue(_shelf), _workbench);
        int kept = 0;
        IReadOnlyList<TakenIn> damaged = await ProgressDisplay.ShowAsync(_terminal, "Indexing", show => Task.Run(
            () => shelf.Rebuild(
                new ImmediateProgress<(int Done, int Total)>(p =>
                {
                    kept = p.Done;
                    show(p.Done, p.Total);
                }),
                cancellation),
            cancellation));
        await _terminal.Output.WriteLineAsync(ShelfIntakeText.Count(kept - damaged.Count, "profile") + $" in the index of {shelf.Folder}");
        return ShelfIntakeText.Complain(_terminal, damaged) ? ExitStatus.File : ExitStatus.Done;
    }
}
