using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Profiles;
using SensorLab.Retest;
using SensorLab.Shelf;
using SensorLab.Shelf.History;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab shelf list</c>: what there is of every body.</summary>
/// <remarks>Asks the index for profiles, and for one figure of theirs where it is named.</remarks>
internal sealed class ShelfListCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab shelf list",
        "sensorlab shelf list --body LM-2 --iso 1600",
        "sensorlab shelf list --body 20417 --iso 800 --figure readNoiseElectron",
        "sensorlab shelf list --json",
    ];

    private readonly Option<string?> _body = ShelfBodyOption.Create();

    private readonly Option<int?> _iso = IsoOption.Create("Only profiles that hold this ISO.");

    private readonly Option<string?> _figure = ShelfFigureOption.Create("A figure to list with every profile, as profiles name it, as aboveEv or readNoiseElectron; it may be cut, as belowEv. Only profiles that hold it.");

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
            words._body, words._iso, words._figure, words._shelf, words._json,
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
        ILookup<string, (FigureAddress, Figure)>? figures = words.GetValue(_figure) is { } name
            ? shelf.Figures(new FigureChoice(iso, name), [.. bodies.SelectMany(contents.Of)], cancellation)
            : null;
        ListedBody[] shown =
        [
            .. bodies.Select(b => ListedBody.Of(contents.Of(b), gaps[b.Id], p => (iso is null || p.Isos.Contains(iso.Value)) && (figures is null || figures.Contains(p.Key)), figures)).OfType<ListedBody>(),
        ];
        if (figures is not null && shown.Length == 0)
        {
            throw new UsageException($"no profile that is listed holds {new FigureChoice(iso, words.GetValue(_figure)).InWords}.");
        }

        if (words.GetValue(_json))
        {
            ShelfListDocument.Write(_terminal.Output, shelf, shown);
            return ExitStatus.Done;
        }

        foreach (string line in ShelfListText.Lines(shelf, shown, iso))
        {
            _terminal.Output.WriteLine(line);
        }

        return ExitStatus.Done;
    }
}
