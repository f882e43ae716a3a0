using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Shelf;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab shelf list</c>: what there is of every body.</summary>
/// <remarks>Asks the index for profiles without their figures.</remarks>
internal sealed class ShelfListCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab shelf list",
        "sensorlab shelf list --body LM-2 --iso 1600",
        "sensorlab shelf list --json",
    ];

    private readonly Option<string?> _body = ShelfBodyOption.Create();

    private readonly Option<int?> _iso = IsoOption.Create("Only profiles that hold this ISO.");

    private readonly Option<string?> _shelf = ShelfOption.Create();

    private readonly Option<bool> _json = new("--json") { Description = "Write one JSON document to standard output in place of the text." };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private ShelfListCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new ShelfListCommand(workbench, terminal);
        var command = new ExampleCommand("list", "Lists the bodies with their profiles, the one to use, and what a body lacks beside the rest of the shelf.", Examples)
        {
            words._body, words._iso, words._shelf, words._json,
        };
        command.SetAction((parsed, cancellation) => Task.FromResult(words.Run(parsed, cancellation)));
        return command;
    }

    private int Run(ParseResult words, CancellationToken cancellation)
    {
        ProfileShelf shelf = ShelfPlace.Of(words.GetValue(_shelf), _workbench);
        ShelfContents contents = shelf.Contents(cancellation);
        ShelfIntakeText.Complain(_terminal, contents.Damaged);
        int? iso = words.GetValue(_iso);
        string? text = words.GetValue(_body);
        IReadOnlyList<ShelfBody> bodies = contents.BodiesOf(text);
        if (text is not null && bodies.Count == 0)
        {
            // Says which there are.
            contents.BodyOf(text);
        }

        IReadOnlyDictionary<string, BodyGaps> gaps = BodyGaps.Of(contents);
        (ShelfBody Body, IReadOnlyList<ShelvedProfile> Profiles, BodyGaps Gaps)[] shown =
        [
            .. bodies.Select(b => (b, contents.Of(b), gaps[b.Id])).Where(b => iso is null || b.Item2.Any(p => p.Isos.Contains(iso.Value))),
        ];
        if (words.GetValue(_json))
        {
            ShelfListDocument.Write(_terminal.Output, shelf, shown, iso);
            return ExitStatus.Done;
        }

        foreach (string line in ShelfListText.Lines(shelf, shown, iso))
        {
            _terminal.Output.WriteLine(line);
        }

        return ExitStatus.Done;
    }
}
