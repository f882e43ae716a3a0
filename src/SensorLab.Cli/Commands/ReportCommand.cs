using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab report</c>: a sensor profile in, its report out.</summary>
/// <remarks>Work in proportion to the profile, 64 MB at most; the axes of its charts are of fixed length. Stops between its parts.</remarks>
internal sealed class ReportCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab report skerry-lm2.json --out skerry-lm2-report",
    ];

    private readonly Argument<string> _profile = ProfileArgument.Create("A sensor profile that characterise wrote; nothing else is needed.");

    private readonly Option<string> _out = new("--out")
    {
        HelpName = "FOLDER",
        Description = "Where report.html, report.pdf, appendix.pdf, charts and tables are written; other files in it are left alone.",
        Required = true,
    };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private ReportCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new ReportCommand(workbench, terminal);
        var command = new ExampleCommand("report", "Writes a sensor profile's report: a page, a PDF, charts and tables.", Examples);
        command.Add(words._profile);
        command.Add(words._out);
        command.SetAction((parsed, cancellation) => Task.FromResult(words.Run(parsed, cancellation)));
        return command;
    }

    private int Run(ParseResult words, CancellationToken cancellation)
    {
        string folder = words.GetRequiredValue(_out);
        OutputPlace.RequireFolder(folder);
        string path = ProfileSource.PathOf(words.GetRequiredValue(_profile), _workbench, _terminal, cancellation);
        SensorProfile profile = ProfileSource.Read(path, cancellation);
        new WholeOutput(new InputFiles(path))
            .WithFolder(folder, _workbench.ReportFiles(profile, cancellation).Select(file => (file.Name, file.Bytes)))
            .PutInPlace(cancellation);
        FindingText.WriteBrief(_terminal.Error, profile);
        foreach (string line in ReportSummary.Lines(profile).Concat([string.Empty, ReportSummary.PlaceLine(folder)]))
        {
            _terminal.Output.WriteLine(line);
        }

        FindingText.Write(_terminal.Error, profile.Findings, profile);
        return ExitStatus.Done;
    }
}
