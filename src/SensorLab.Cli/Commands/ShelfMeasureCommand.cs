using System.CommandLine;
using System.Diagnostics.CodeAnalysis;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Profiles;
using SensorLab.Shelf;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab shelf measure</c>: many frame sets in, their profiles on the shelf.</summary>
/// <remarks>One set after another, each as <c>characterise</c> measures it, in the memory that one takes. Stops within a set; what was measured stays.</remarks>
internal sealed class ShelfMeasureCommand
{
    private const string Description =
        "Characterises every frame set in the folders and puts the profiles on the shelf. A set that was measured so before is passed over, one that fails "
        + "is named and does not stop the others: run it again to go on. Exit status 3 where a set is refused, 4 where files cannot be read.";

    private static readonly string[] Examples =
    [
        "sensorlab shelf measure card-of-april card-of-may",
        "sensorlab shelf measure rental-house --shelf team-shelf --jobs 8",
    ];

    private readonly Argument<string[]> _folders = FileArgument.Several("FOLDER", "Frame sets, or folders with frame sets in them at any depth.");

    private readonly Option<string?> _shelf = ShelfOption.Create();

    private readonly CharacterisationWords _words = new();

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private ShelfMeasureCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new ShelfMeasureCommand(workbench, terminal);
        var command = new ExampleCommand("measure", Description, Examples) { words._folders, words._shelf };
        foreach (Option option in words._words.Options)
        {
            command.Add(option);
        }

        command.SetAction(words.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult words, CancellationToken cancellation)
    {
        ProfileShelf shelf = ShelfPlace.Of(words.GetValue(_shelf), _workbench, isMade: true);
        (CharacterisationOptions options, IReadOnlyList<string> taken) = _words.OptionsOf(words, Settings.Read(_workbench.SettingsPath));
        SettingsNote.Write(_terminal, taken);
        string[] sets = [.. words.GetRequiredValue(_folders).SelectMany(SetFolders.Below).Distinct(StringComparer.Ordinal)];
        var measured = new MeasuredSets(shelf);
        var outcomes = new List<MeasuredOutcome>();
        foreach (string set in sets)
        {
            cancellation.ThrowIfCancellationRequested();
            MeasuredOutcome outcome = await MeasureAsync(set, shelf, measured, options, cancellation);
            outcomes.Add(outcome);
            foreach (string line in ShelfMeasureText.Lines(outcome))
            {
                await _terminal.Output.WriteLineAsync(line);
            }
        }

        await _terminal.Output.WriteLineAsync(ShelfMeasureText.Summary(outcomes, shelf.Folder));
        int[] failures = [.. outcomes.Select(o => o.Status).Where(status => status != ExitStatus.Done)];
        return failures.Length == 0 ? ExitStatus.Done
            : failures.Contains(ExitStatus.ProgramFault) ? ExitStatus.ProgramFault
            : failures.Contains(ExitStatus.File) ? ExitStatus.File
            : ExitStatus.Refused;
    }

    [SuppressMessage("Design", "CA1031", Justification = "Whatever one set breaks is told of that set, and the others go on.")]
    private async Task<MeasuredOutcome> MeasureAsync(string set, ProfileShelf shelf, MeasuredSets measured, CharacterisationOptions options, CancellationToken cancellation)
    {
        try
        {
            string mark = MeasuredSets.MarkOf(set, _workbench.FilesOf(set), ShelfMeasureText.WordsOf(options));
            if (measured.ProfileOf(mark) is not null)
            {
                return new MeasuredOutcome(set, "there already", null, [], ExitStatus.Done);
            }

            using IDisposable? turn = measured.Take(mark);
            if (turn is null)
            {
                return new MeasuredOutcome(set, "measured by another run", null, [], ExitStatus.Done);
            }

            SensorProfile profile = await ProgressDisplay.ShowAsync(_terminal, "Measuring frames", report =>
                _workbench.Characterise(set, options, new ImmediateProgress<CharacterisationProgress>(p => report(p.FramesDone, p.FramesTotal)), cancellation));
            IReadOnlyList<TakenIn> kept = await shelf.AddAsync([new ShelfCandidate(set, _ => ShelfDocument.Of(profile))], new ImmediateProgress<int>(_ => { }), cancellation);
            if (kept[0].Fault is { } fault)
            {
                throw fault;
            }

            measured.Note(mark, kept[0].Key!, set);
            return new MeasuredOutcome(set, "measured", kept[0].Body!.Name, [], ExitStatus.Done);
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            (int status, string message) = CommandFaults.Of(e);
            return new MeasuredOutcome(set, "failed", null, e is FrameSetRefusedException refused ? [.. refused.Findings.Select(f => $"{f.Code}: {f.Message}")] : [message], status);
        }
    }
}
