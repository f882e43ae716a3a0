using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Debrief;
using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab debrief</c>: a profile and a finished assignment's raw files in, how the day used the sensor out.</summary>
/// <remarks>Decodes each file once, 100,000 files at most; memory as for intake, and a small picture a frame. Stops between rows.</remarks>
internal sealed class DebriefCommand
{
    private const string Description =
        "Tells how an assignment's raw files used the sensor: what clipped by the measured clip, the headroom left, what sank, what the "
        + "previews pretended, and what to do next time. Files that the profile cannot speak for are named, not guessed.";

    private static readonly string[] Examples =
    [
        "sensorlab debrief skerry-lm2.json lights-2026-05-09 --out lights-debrief",
        "sensorlab debrief skerry-lm2.zip card/DCIM --out card-debrief --json",
    ];

    private readonly Argument<string> _profile = ProfileArgument.Create("The sensor profile of the body that took them, or its bundle.");

    private readonly Argument<string> _frames = FolderArgument.Create("The folder with the assignment's raw files, in any folders. None of them is touched.");

    private readonly Option<string> _out = new("--out") { HelpName = "FOLDER", Description = "Where debrief.html, debrief.csv and frames.parquet are written.", Required = true };

    private readonly Option<bool> _json = new("--json") { Description = "Write one JSON document to standard output in place of the text." };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private DebriefCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new DebriefCommand(workbench, terminal);
        var command = new ExampleCommand("debrief", Description, Examples) { words._profile, words._frames, words._out, words._json };
        command.SetAction(words.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult words, CancellationToken cancellation)
    {
        string path = ProfileSource.PathOf(words.GetRequiredValue(_profile), _workbench, _terminal, cancellation);
        string frames = words.GetRequiredValue(_frames);
        string folder = words.GetRequiredValue(_out);
        bool isJson = words.GetValue(_json);
        OutputPlace.RequireFolder(folder);
        var inputs = new InputFiles([path, .. _workbench.FilesOf(frames)]);
        SensorProfile profile = ProfileSource.Read(path, cancellation);
        DayDebrief day = await JobReading.RunAsync(_terminal, isJson, progress => _workbench.Debrief(profile, frames, Environment.ProcessorCount, progress, cancellation));
        new WholeOutput(inputs).WithFolder(folder, _workbench.DebriefFiles(day).Select(file => (file.Name, file.Bytes))).PutInPlace(cancellation);
        Show(day, folder, isJson);
        return ExitStatus.Done;
    }

    private void Show(DayDebrief day, string folder, bool isJson)
    {
        FindingText.Write(_terminal.Error, day.Findings);
        if (isJson)
        {
            DebriefDocument.Write(_terminal.Output, day);
            return;
        }

        foreach (string line in DebriefText.Lines(day, folder))
        {
            _terminal.Output.WriteLine(line);
        }
    }
}
