using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Files;
using SensorLab.Intakes;
using SensorLab.Planning.Plans;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab intake</c>: what the frames are and what is wrong with them, before anyone waits for figures.</summary>
/// <remarks>Reads every photosite of every frame once, 100,000 frames at most, and fits nothing but each level. Stops between rows of a frame.</remarks>
internal sealed class IntakeCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab intake skerry-lm2",
        "sensorlab intake skerry-lm2 --thumbnail field.png",
        "sensorlab intake skerry-lm2 --plan lm2-plan/plan.json",
        "sensorlab intake skerry-lm2 --spot 1200,800 --json",
    ];

    private readonly Argument<string> _frames = FolderArgument.Create("The frame set: a folder with dark, metered and bracket in it.");

    private readonly Option<string?> _thumbnail = new("--thumbnail")
    {
        HelpName = "FILE.png",
        Description = "Write a picture of the field, with the region measured and the spot drawn.",
    };

    private readonly Option<bool> _json = new("--json") { Description = "Write one JSON document to standard output in place of the table." };

    private readonly Option<string?> _plan = PlanOption.Create();

    private readonly PlaceWords _place = new();

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private IntakeCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new IntakeCommand(workbench, terminal);
        var command = new ExampleCommand("intake", "Tells what the frames of a set are and what is wrong with them; fits nothing.", Examples);
        command.Add(words._frames);
        foreach (Option option in words._place.Options)
        {
            command.Add(option);
        }

        command.Add(words._plan);
        command.Add(words._thumbnail);
        command.Add(words._json);
        command.SetAction(words.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult words, CancellationToken cancellation)
    {
        string frames = words.GetRequiredValue(_frames);
        string? thumbnail = words.GetValue(_thumbnail);
        InputFiles inputs = new([words.GetValue(_plan), .. _workbench.FilesOf(frames).Where(found => !OwnMark.IsPng(found))]);
        RequirePlaces(frames, thumbnail, inputs);
        ShotPlan? plan = words.GetValue(_plan) is { } file ? PlanSource.Read(file) : null;
        CharacterisationOptions options = _place.Into(new CharacterisationOptions(), words);
        IntakeReport report = await ProgressDisplay.ShowAsync(_terminal, "Reading frames", show => _workbench.LookOver(
            frames,
            options,
            new ImmediateProgress<CharacterisationProgress>(p => show(p.FramesDone, p.FramesTotal)),
            cancellation));
        bool isDrawn = thumbnail is not null && report.FieldFrame is not null;
        if (isDrawn)
        {
            byte[] png = _workbench.DrawField(frames, report, cancellation);
            new WholeOutput(inputs).WithFile(thumbnail!, picture => picture.Write(png)).PutInPlace(cancellation);
        }

        PlanComparison? comparison = plan is null ? null : await _workbench.ComparePlan(frames, plan, options.Jobs, cancellation);
        Show(report, comparison, words.GetValue(_json), isDrawn ? thumbnail : null);
        return report.CanBeCharacterised ? ExitStatus.Done : ExitStatus.Refused;
    }

    private void RequirePlaces(string frames, string? thumbnail, InputFiles inputs)
    {
        if (!Directory.Exists(frames))
        {
            throw new DirectoryNotFoundException(File.Exists(frames)
                ? $"{frames} is a file: name the folder that holds dark, metered and bracket."
                : $"There is no {frames}: name the folder that holds dark, metered and bracket.");
        }

        if (thumbnail is not null)
        {
            OutputPlace.RequireFile(thumbnail, inputs);
            _workbench.RequireImaging();
        }
    }

    private void Show(IntakeReport report, PlanComparison? comparison, bool isJson, string? thumbnail)
    {
        FindingText.Write(_terminal.Error, report.Findings);
        if (isJson)
        {
            IntakeDocument.Write(_terminal.Output, report, comparison);
            return;
        }

        foreach (string line in IntakeTable.Lines(report).Concat(comparison is null ? [] : PlanComparisonText.Lines(comparison)))
        {
            _terminal.Output.WriteLine(line);
        }

        if (thumbnail is not null)
        {
            _terminal.Output.WriteLine($"Picture of the field: {thumbnail}");
        }
    }
}
