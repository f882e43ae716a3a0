using System.CommandLine;
using SensorLab.Assignment;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Files;
using SensorLab.Planning.Plans;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab assign</c>: a card as it comes out of the camera in, frames.csv out.</summary>
/// <remarks>Reads the header and a sample of each frame, 100,000 frames at most; then work in proportion to frames and settings. Stops between frames.</remarks>
internal sealed class AssignCommand
{
    private const string TableName = "frames.csv";

    private const string Description =
        "Tells what every frame of an unsorted card serves for, and writes frames.csv with the reasons. What it cannot tell it asks: "
        + "answer in that table, and assign again. Ends with 0 where the set can be characterised as assigned, with 3 where it "
        + "cannot yet; where no frame is a set's, nothing is written.";

    private static readonly string[] Examples =
    [
        "sensorlab assign card --plan lm2-plan/plan.json",
        "sensorlab assign card --metered 1/8@100 --metered 1/30@400",
        "sensorlab assign card --plan lm2-plan/plan.json --json",
    ];

    private readonly Argument<string> _frames = FolderArgument.Create("The card, or a copy of it: raw files in any order and any folders. None of them is touched.");

    private readonly Option<string?> _plan = new("--plan") { HelpName = "PLAN.json", Description = "The plan.json that the set was shot by: its order and settings tell the frames." };

    private readonly Option<(double Seconds, int Iso)[]> _metered = WordOption.Several<(double Seconds, int Iso)>(
        "--metered",
        "SECONDS@ISO",
        "An exposure at which the spot meter read zero on the field; may be repeated, for each ISO and each of its edges.",
        "an exposure time and an ISO, as 1/8@100",
        Metered);

    private readonly Option<string?> _out = new("--out") { HelpName = "FRAMES.csv", Description = "Where the table is written [default: frames.csv at the top of FRAMES, where characterise reads it]." };

    private readonly Option<bool> _json = new("--json") { Description = "Write one JSON document to standard output in place of the table." };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private AssignCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new AssignCommand(workbench, terminal);
        var command = new ExampleCommand("assign", Description, Examples)
        {
            words._frames, words._plan, words._metered, words._out, words._json,
        };
        command.SetAction(words.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult words, CancellationToken cancellation)
    {
        string frames = words.GetRequiredValue(_frames);
        string table = words.GetValue(_out) ?? Path.Combine(frames, TableName);
        InputFiles inputs = new([words.GetValue(_plan), .. _workbench.FilesOf(frames).Where(found => !Path.GetExtension(found).Equals(".csv", StringComparison.OrdinalIgnoreCase))]);
        RequirePlaces(frames, table, inputs);
        ShotPlan? plan = words.GetValue(_plan) is { } file ? PlanSource.Read(file) : null;
        var reading = new CardReading { Plan = plan, Metered = [.. (words.GetValue(_metered) ?? []).Select(m => new MeteredSetting(m.Seconds, m.Iso))] };
        CardAssignment card = await ProgressDisplay.ShowAsync(_terminal, "Looking at frames", show => _workbench.Assign(
            frames,
            reading,
            Environment.ProcessorCount,
            new ImmediateProgress<CharacterisationProgress>(p => show(p.FramesDone, p.FramesTotal)),
            cancellation));
        if (card.HasAnswer)
        {
            new WholeOutput(inputs).WithFile(table, stream => stream.Write(card.Table.Span)).PutInPlace(cancellation);
        }

        FindingText.Write(_terminal.Error, card.Findings);
        Show(card, plan, table, frames, words.GetValue(_json));
        return card.CanBeCharacterised ? ExitStatus.Done : ExitStatus.Refused;
    }

    private static void RequirePlaces(string frames, string table, InputFiles inputs)
    {
        if (!Directory.Exists(frames))
        {
            throw new DirectoryNotFoundException(File.Exists(frames)
                ? $"{frames} is a file: name the folder that holds the card's frames."
                : $"There is no {frames}: name the folder that holds the card's frames.");
        }

        if (!Path.GetExtension(table).Equals(".csv", StringComparison.OrdinalIgnoreCase))
        {
            throw new UsageException($"--out: {table} is no table: give it a name that ends in .csv.");
        }

        try
        {
            OutputPlace.RequireFile(table, inputs);
        }
        catch (UnauthorizedAccessException e)
        {
            throw new UnauthorizedAccessException($"{e.Message} A card that is locked is copied to a disk first: characterise reads the table at the top of the frames.", e);
        }
    }

    private void Show(CardAssignment card, ShotPlan? plan, string table, string frames, bool isJson)
    {
        if (isJson)
        {
            AssignmentDocument.Write(_terminal.Output, card);
            return;
        }

        IEnumerable<string> missing = plan is null ? [] : PlanComparisonText.Lines(PlanComparison.Of(plan, card.Shot));
        foreach (string line in AssignmentText.Lines(card, table, frames).Concat(missing))
        {
            _terminal.Output.WriteLine(line);
        }
    }

    private static (double Seconds, int Iso)? Metered(string word) =>
        word.Split('@') is [var time, var iso] && NumberWords.Seconds(time) is { } seconds && NumberWords.WholeNumbers(iso, 1) is [> 0 and var setting] ? (seconds, setting) : null;
}
