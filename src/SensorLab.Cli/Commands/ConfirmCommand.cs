using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Profiles;
using SensorLab.Retest.Confirm;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab confirm</c>: a profile and a job's raw files in, whether it still describes the body out.</summary>
/// <remarks>Decodes each file once, dark and evenly lit groups of 16 frames at most a second time. Stops between rows.</remarks>
internal sealed class ConfirmCommand
{
    private const string Description =
        "Tells whether a profile still describes the body that took a job's raw files: identity, mode, declared levels, code steps and "
        + "clip codes, masked photosites; with dark frames and frames of an even field black, read noise and gain, judged as in a re-test. "
        + "A borrowed profile of another body of the model is judged alike. Exit status 0 consistent, 5 different, 6 cannot tell.";

    private static readonly string[] Examples =
    [
        "sensorlab confirm skerry-lm2.json lights-2026-05-09",
        "sensorlab confirm colleague-lm2.zip ten-frames --json",
    ];

    private readonly Argument<string> _profile = ProfileArgument.Create("The sensor profile, or its bundle.");

    private readonly Argument<string> _frames = FolderArgument.Create("The folder with raw files. Five dark frames and five of an even field tell more; frames.csv, folders dark/ and metered/, or their photosites say which they are.");

    private readonly Option<bool> _json = new("--json") { Description = "Write one JSON document to standard output in place of the text." };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private ConfirmCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new ConfirmCommand(workbench, terminal);
        var command = new ExampleCommand("confirm", Description, Examples) { words._profile, words._frames, words._json };
        command.SetAction(words.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult words, CancellationToken cancellation)
    {
        bool isJson = words.GetValue(_json);
        SensorProfile profile = ProfileSource.Read(ProfileSource.PathOf(words.GetRequiredValue(_profile), _workbench, _terminal, cancellation), cancellation);
        string frames = words.GetRequiredValue(_frames);
        (ConfirmResult result, IReadOnlyList<Finding> findings) = await JobReading.RunAsync(_terminal, isJson, progress => _workbench.Confirm(profile, frames, Environment.ProcessorCount, progress, cancellation));
        Show(profile, result, findings, isJson);
        return result.Verdict switch
        {
            ConfirmVerdict.Consistent => ExitStatus.Done,
            ConfirmVerdict.Different => ExitStatus.Changed,
            _ => ExitStatus.Undecided,
        };
    }

    private void Show(SensorProfile profile, ConfirmResult result, IReadOnlyList<Finding> findings, bool isJson)
    {
        FindingText.Write(_terminal.Error, findings);
        if (isJson)
        {
            ConfirmDocument.Write(_terminal.Output, result, findings);
            return;
        }

        foreach (string line in ConfirmText.Lines(profile, result))
        {
            _terminal.Output.WriteLine(line);
        }
    }
}
