using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Shelf;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab shelf add</c>: profiles, bundles and folders of them in.</summary>
/// <remarks>Reads each file once, 64 MB at most, in batches that memory holds. Stops between batches; what was taken in stays.</remarks>
internal sealed class ShelfAddCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab shelf add skerry-lm2.json",
        "sensorlab shelf add colleague-lm2.zip team-profiles --shelf team-shelf",
    ];

    private readonly Argument<string[]> _profiles = FileArgument.Several("PROFILE.json", "Profiles, bundles, which are verified first, or folders with them at any depth.");

    private readonly Option<string?> _shelf = ShelfOption.Create();

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private ShelfAddCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new ShelfAddCommand(workbench, terminal);
        var command = new ExampleCommand(
            "add",
            "Takes profiles in; one that is there stays as it is. What is no sound profile is left out and named, with exit status 4; the others are taken in.",
            Examples)
        {
            words._profiles, words._shelf,
        };
        command.SetAction(words.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult words, CancellationToken cancellation)
    {
        ProfileShelf shelf = ShelfPlace.Of(words.GetValue(_shelf), _workbench, isMade: true);
        ShelfCandidate[] candidates = [.. words.GetRequiredValue(_profiles).SelectMany(CandidatesOf)];
        IReadOnlyList<TakenIn> taken = await ProgressDisplay.ShowAsync(_terminal, "Taking in", show =>
            shelf.AddAsync(candidates, new ImmediateProgress<int>(done => show(done, candidates.Length)), cancellation));
        foreach (string line in ShelfIntakeText.Lines(taken, shelf.Folder))
        {
            await _terminal.Output.WriteLineAsync(line);
        }

        return ShelfIntakeText.Complain(_terminal, taken) ? ExitStatus.File : ExitStatus.Done;
    }

    private IEnumerable<ShelfCandidate> CandidatesOf(string path) => Directory.Exists(path)
        ? _workbench.FilesOf(path).Where(IsMeant).Order(StringComparer.Ordinal).Select(Candidate)
        : [Candidate(path)];

    // A folder holds other things, too: plans, reports, frames.
    private static bool IsMeant(string file) =>
        (file.EndsWith(".json", StringComparison.OrdinalIgnoreCase) && InputKind.Of(file) == InputKind.Profile)
        || (file.EndsWith(".zip", StringComparison.OrdinalIgnoreCase) && InputKind.Of(file) == InputKind.Archive);

    private ShelfCandidate Candidate(string path) => new(path, cancellation => ProfileSource.ReadDocument(path, cancellation));
}
