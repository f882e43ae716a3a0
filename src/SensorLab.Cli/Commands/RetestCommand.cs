using System.CommandLine;
using System.Text;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Files;
using SensorLab.Retest;
using SensorLab.Profiles;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab retest</c>: two sensor profiles in, what changed between them out.</summary>
/// <remarks>Work in proportion to the profiles, 64 MB each at most; profiles of other versions are fitted again, each ISO in counted steps. Stops between ISOs and between the report's parts.</remarks>
internal sealed class RetestCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab retest lm2-1.1.json lm2-1.2.json",
        "sensorlab retest lm2-1.1.json lm2-1.2.json --repeat lm2-1.1-again.json",
        "sensorlab retest lm2-a.json lm2-b.json --margin aboveEv=0.05ev --json",
        "sensorlab retest a.json b.json --margin gainElectronPerDn=1% --margin blackLevelDn=2dn",
    ];

    private readonly Argument<string> _before = FileArgument.Create("BEFORE.json", "The sensor profile of the earlier set, or of the first of two bodies.");

    private readonly Argument<string> _after = FileArgument.Create("AFTER.json", "The sensor profile of the later set, or of the second of two bodies.");

    private readonly Option<string[]> _repeat = new("--repeat")
    {
        HelpName = "PROFILE.json",
        Description = "A set of the unchanged body, shot anew: brings what differs between any two sets into the comparison; may be repeated.",
        DefaultValueFactory = _ => [],
    };

    private readonly Option<string[]> _margin = new("--margin")
    {
        HelpName = "FIGURE=SIZE",
        Description = "The largest difference of a figure that does not matter, as 0.1ev, 2% or 1dn; may be repeated. A figure's name may be cut: belowEv=0.2ev.",
        DefaultValueFactory = _ => [],
    };

    private readonly Option<string?> _report = new("--report") { HelpName = "FOLDER", Description = "Write a report with the differences drawn into this folder." };

    private readonly Option<bool> _json = new("--json") { Description = "Write the result to standard output as JSON in place of the text." };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private RetestCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new RetestCommand(workbench, terminal);
        var command = new ExampleCommand(
            "retest",
            "Compares two sensor profiles figure by figure: before and after an update, or two bodies of a model. Exit status 0 equivalent, 5 changed, 6 undecided.",
            Examples)
        {
            words._before, words._after, words._repeat, words._margin, words._report, words._json,
        };
        command.SetAction(words.RunAsync);
        return command;
    }

    private Task<int> RunAsync(ParseResult words, CancellationToken cancellation) => Task.FromResult(Run(words, cancellation));

    private int Run(ParseResult words, CancellationToken cancellation)
    {
        RetestMargins margins = (words.GetValue(_margin) ?? []).Aggregate(RetestMargins.Default, With);
        string? report = words.GetValue(_report);
        if (report is not null)
        {
            OutputPlace.RequireFolder(report);
        }

        bool isJson = words.GetValue(_json);
        string[] paths = [.. new[] { words.GetRequiredValue(_before), words.GetRequiredValue(_after) }.Concat(words.GetValue(_repeat) ?? []).Select(word => ProfileSource.PathOf(word, _workbench, _terminal, cancellation))];
        SensorProfile[] profiles = [.. paths.Select(path => ProfileSource.Read(path, cancellation))];
        (SensorProfile before, SensorProfile after, SensorProfile[] repeats) = (profiles[0], profiles[1], profiles[2..]);
        RetestResult result;
        try
        {
            result = RetestRun.Of(before, after, repeats, margins, cancellation);
        }
        catch (ProfilesNotComparableException refused) when (isJson)
        {
            FindingsDocument.Write(_terminal.Output, refused.Findings);
            throw;
        }

        if (report is not null)
        {
            new WholeOutput(new InputFiles(paths))
                .WithFolder(report, _workbench.RetestFiles(result, cancellation).Select(file => (file.Name, file.Bytes)))
                .PutInPlace(cancellation);
        }

        Show(result, report, isJson);
        return result.Verdict switch
        {
            RetestVerdict.Changed => ExitStatus.Changed,
            RetestVerdict.Undecided => ExitStatus.Undecided,
            _ => ExitStatus.Done,
        };
    }

    private void Show(RetestResult result, string? report, bool isJson)
    {
        if (isJson)
        {
            using var document = new MemoryStream();
            RetestResultWriter.Write(result, document);
            _terminal.Output.Write(Encoding.UTF8.GetString(document.GetBuffer(), 0, (int)document.Length));
            return;
        }

        foreach (string line in RetestText.Lines(result))
        {
            _terminal.Output.WriteLine(line);
        }

        if (report is not null)
        {
            _terminal.Output.WriteLine();
            _terminal.Output.WriteLine($"Report: {report}");
        }
    }

    private static RetestMargins With(RetestMargins margins, string word)
    {
        int equals = word.IndexOf('=', StringComparison.Ordinal);
        if (equals <= 0 || Margin.Parse(word[(equals + 1)..]) is not { } margin)
        {
            throw new UsageException($"--margin: \"{word}\" is not a figure and a size such as aboveEv=0.1ev, gainElectronPerDn=2% or blackLevelDn=1dn.");
        }

        try
        {
            return margins.With(word[..equals], margin);
        }
        catch (MarginException e)
        {
            throw new UsageException($"--margin: {e.Message}");
        }
    }
}
