using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Files;
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

    private readonly Option<string?> _out = new("--out") { HelpName = "FILE.html", Description = "Write a page with the figures drawn, their intervals and what is marked; it works offline." };

    private readonly Option<string?> _shelf = ShelfOption.Create();

    private readonly Option<bool> _json = new("--json") { Description = "Write one JSON document to standard output in place of the text." };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private ShelfModelCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new ShelfModelCommand(workbench, terminal);
        var command = new ExampleCommand(
            "model",
            "Compares the bodies of a model by their newest profiles: which stand out, and how far the model tells of a body that nobody measured.",
            Examples)
        {
            words._model, words._iso, words._figure, words._out, words._shelf, words._json,
        };
        command.SetAction((parsed, cancellation) => Task.FromResult(words.Run(parsed, cancellation)));
        return command;
    }

    private int Run(ParseResult words, CancellationToken cancellation)
    {
        ProfileShelf shelf = ShelfPlace.Of(words.GetValue(_shelf), _workbench);
        string? page = words.GetValue(_out);
        if (page is not null)
        {
            _workbench.RequireFonts();
            OutputPlace.RequireFile(page, new InputFiles());
        }

        ShelfContents contents = shelf.Contents(cancellation);
        ShelfIntakeText.Complain(_terminal, contents.Damaged);
        var choice = new FigureChoice(words.GetValue(_iso), words.GetValue(_figure));
        ModelSpread spread = shelf.Compare(contents.ModelOf(words.GetValue(_model)), contents, choice, cancellation);
        if (spread.Figures.Count == 0)
        {
            throw new UsageException($"no newest profile of {spread.Name} holds {choice.InWords}. sensorlab shelf list shows their ISOs.");
        }

        if (page is not null)
        {
            byte[] html = ShelfPages.Model(spread);
            new WholeOutput().WithFile(page, file => file.Write(html)).PutInPlace(cancellation);
        }

        if (words.GetValue(_json))
        {
            ShelfModelDocument.Write(_terminal.Output, spread);
            return ExitStatus.Done;
        }

        foreach (string line in ShelfModelText.Lines(spread))
        {
            _terminal.Output.WriteLine(line);
        }

        return ExitStatus.Done;
    }
}
