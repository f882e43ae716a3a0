using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Retest;
using SensorLab.Shelf;
using SensorLab.Shelf.History;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab shelf history</c>: a figure's course over a body's profiles.</summary>
/// <remarks>Reads the figures of one body's profiles, side by side, and compares each with the one before it.</remarks>
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

    private readonly Option<string?> _shelf = ShelfOption.Create();

    private readonly ShelfAnswer _answer;

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private ShelfHistoryCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
        _answer = new ShelfAnswer(workbench, terminal);
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new ShelfHistoryCommand(workbench, terminal);
        var command = new ExampleCommand("history", "Shows how a body's figures went from profile to profile, with the re-test's verdict between neighbours.", Examples)
        {
            words._body, words._iso, words._figure, words._answer.Out, words._shelf, words._answer.Json,
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
        ShelfBody body = contents.BodyOf(words.GetValue(_body));
        var choice = new FigureChoice(words.GetValue(_iso), words.GetValue(_figure));
        BodyHistory history = BodyHistory.Of(
            body,
            contents.Of(body),
            choice,
            profile => shelf.ReadFigures(profile.Key),
            (before, after) => Compared(shelf, before, after, cancellation),
            cancellation);
        if (history.Courses.Count == 0)
        {
            throw new UsageException($"no profile of {body.Name} holds {choice.InWords}. sensorlab shelf list shows its ISOs.");
        }

        return _answer.Give(words, () => ShelfPages.History(history), output => ShelfHistoryDocument.Write(output, history), () => ShelfHistoryText.Lines(history), cancellation);
    }

    // Profiles of two versions of the software are fitted again first, from all of their levels.
    private static IReadOnlyList<ComparedFigure> Compared(ProfileShelf shelf, ReadProfile before, ReadProfile after, CancellationToken cancellation) =>
        before.Figures.Software == after.Figures.Software
            ? ProfileComparison.FiguresOf(before.Figures, after.Figures, RetestMargins.Default)
            : RetestRun.Of(shelf.Read(before.Profile.Key), shelf.Read(after.Profile.Key), [], RetestMargins.Default, cancellation).Figures;
}
