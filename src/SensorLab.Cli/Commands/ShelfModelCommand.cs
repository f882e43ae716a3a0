using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Shelf;
using SensorLab.Shelf.History;
using SensorLab.Shelf.Models;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab shelf model</c>: the bodies of a model compared.</summary>
/// <remarks>Asks the index for the figures of the bodies' newest profiles.</remarks>
internal sealed class ShelfModelCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab shelf model --model LM-2",
        "sensorlab shelf model --model LM-2 --iso 800 --figure readNoiseElectron",
    ];

    private readonly Option<string?> _model = new("--model") { HelpName = "TEXT", Description = "A model: words of its name. Not needed where the shelf holds one." };

    private readonly Option<int?> _iso = IsoOption.Create("One ISO; without it all.");

    private readonly Option<string?> _figure = ShelfFigureOption.Create();

    private readonly Option<string?> _shelf = ShelfOption.Create();

    private readonly ShelfAnswer _answer;

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private ShelfModelCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
        _answer = new ShelfAnswer(workbench, terminal);
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new ShelfModelCommand(workbench, terminal);
        var command = new ExampleCommand(
            "model",
            "Compares the bodies of a model by their newest profiles: which stand out, and how far the model tells of a body that nobody measured.",
            Examples)
        {
            words._model, words._iso, words._figure, words._answer.Out, words._shelf, words._answer.Json,
        };
        command.SetAction((parsed, cancellation) => Task.FromResult(words.Run(parsed, cancellation)));
        return command;
    }

    private int Run(ParseResult words, CancellationToken cancellation)
    {
        ProfileShelf shelf = ShelfPlace.Of(words.GetValue(_shelf), _workbench);
        _answer.Require(words);
        ShelfContents contents = shelf.Contents(cancellation);
        ShelfIntakeText.Complain(_terminal, contents.Damaged);
        var choice = new FigureChoice(words.GetValue(_iso), words.GetValue(_figure));
        ModelSpread spread = shelf.Compare(contents.ModelOf(words.GetValue(_model)), contents, choice, cancellation);
        if (spread.Figures.Count == 0)
        {
            throw new UsageException($"no newest profile of {spread.Name} holds {choice.InWords}. sensorlab shelf list shows their ISOs.");
        }

        return _answer.Give(words, () => ShelfPages.Model(spread), output => ShelfModelDocument.Write(output, spread), () => ShelfModelText.Lines(spread), cancellation);
    }
}
