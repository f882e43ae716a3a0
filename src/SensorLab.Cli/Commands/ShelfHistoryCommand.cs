using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Files;
using SensorLab.Retest;
using SensorLab.Shelf;
using SensorLab.Shelf.History;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab shelf history</c>: a figure's course over a body's profiles.</summary>
/// <remarks>Reads the profiles of one body, side by side, and compares each with the one before it.</remarks>
internal sealed class ShelfHistoryCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab shelf history --body 20417",
        "sensorlab shelf history --body 20417 --iso 800 --figure readNoiseElectron",
        "sensorlab shelf history --body \"LM-2 20417\" --figure belowEv.snr10 --json",
    ];

    private readonly Option<string?> _body = ShelfBodyOption.Create();

    private readonly Option<int?> _iso = IsoOption.Create("One ISO; without it all.");

    private readonly Option<string?> _figure = ShelfFigureOption.Create();

    private readonly Option<string?> _out = new("--out") { HelpName = "FILE.html", Description = "Write a page with the figures drawn, their intervals and what is marked; it works offline." };

    private readonly Option<string?> _shelf = ShelfOption.Create();

    private readonly Option<bool> _json = new("--json") { Description = "Write one JSON document to standard output in place of the text." };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private ShelfHistoryCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new ShelfHistoryCommand(workbench, terminal);
        var command = new ExampleCommand("history", "Shows how a body's figures went from profile to profile, with the re-test's verdict between neighbours.", Examples)
        {
            words._body, words._iso, words._figure, words._out, words._shelf, words._json,
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
        ShelfBody body = contents.BodyOf(words.GetValue(_body));
        var choice = new FigureChoice(words.GetValue(_iso), words.GetValue(_figure));
        BodyHistory history = BodyHistory.Of(
            body,
            contents.Of(body),
            choice,
            profile => shelf.Read(profile.Key),
            (before, after) => RetestRun.Of(before, after, [], RetestMargins.Default, cancellation),
            cancellation);
        if (history.Courses.Count == 0)
        {
            throw new UsageException($"no profile of {body.Name} holds {choice.InWords}. sensorlab shelf list shows its ISOs.");
        }

        if (page is not null)
        {
            byte[] html = ShelfPages.History(history);
            new WholeOutput().WithFile(page, file => file.Write(html)).PutInPlace(cancellation);
        }

        if (words.GetValue(_json))
        {
            ShelfHistoryDocument.Write(_terminal.Output, history);
            return ExitStatus.Done;
        }

        foreach (string line in ShelfHistoryText.Lines(history))
        {
            _terminal.Output.WriteLine(line);
        }

        return ExitStatus.Done;
    }
}
