using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Intakes;
using SensorLab.Profiles;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab intake</c>: what the frames are and what is wrong with them, before anyone waits for figures.</summary>
internal sealed class IntakeCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab intake skerry-lm2",
        "sensorlab intake skerry-lm2 --thumbnail field.png",
        "sensorlab intake skerry-lm2 --spot 1200,800 --json",
    ];

    private readonly Argument<string> _frames = FolderArgument.Create("The frame set: a folder with dark, metered and bracket in it.");

    private readonly Option<string?> _thumbnail = new("--thumbnail")
    {
        HelpName = "FILE.png",
        Description = "Write a picture of the field, with the region measured and the spot drawn.",
    };

    private readonly Option<bool> _json = new("--json") { Description = "Write one JSON document to standard output in place of the table." };

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

        command.Add(words._thumbnail);
        command.Add(words._json);
        command.SetAction(words.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult words, CancellationToken cancellation)
    {
        string frames = words.GetRequiredValue(_frames);
        string? thumbnail = words.GetValue(_thumbnail);
        RequirePlaces(frames, thumbnail);
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
            WholeFile.Write(thumbnail!, file => file.Write(png), cancellation);
        }

        Show(report, words.GetValue(_json), isDrawn ? thumbnail : null);
        return report.CanBeCharacterised ? ExitStatus.Done : ExitStatus.Refused;
    }

    private void RequirePlaces(string frames, string? thumbnail)
    {
        if (!Directory.Exists(frames))
        {
            throw new DirectoryNotFoundException(File.Exists(frames)
                ? $"{frames} is a file: name the folder that holds dark, metered and bracket."
                : $"There is no {frames}: name the folder that holds dark, metered and bracket.");
        }

        if (thumbnail is not null)
        {
            OutputPlace.RequireFile(thumbnail);
            _workbench.RequireImaging();
        }
    }

    private void Show(IntakeReport report, bool isJson, string? thumbnail)
    {
        FindingText.Write(_terminal.Error, report.Findings);
        if (isJson)
        {
            IntakeDocument.Write(_terminal.Output, report);
            return;
        }

        foreach (string line in IntakeTable.Lines(report))
        {
            _terminal.Output.WriteLine(line);
        }

        if (thumbnail is not null)
        {
            _terminal.Output.WriteLine($"Picture of the field: {thumbnail}");
        }
    }
}
