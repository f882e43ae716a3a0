using System.CommandLine;
using System.CommandLine.Completions;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using System.Diagnostics.CodeAnalysis;
using System.Runtime.InteropServices;
using SensorLab.Cli.Commands;
using SensorLab.Debrief;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;
using SensorLab.Publishing.Bundles;
using SensorLab.Reports;
using SensorLab.Retest;
using SensorLab.Shelf;

namespace SensorLab.Cli;

/// <summary>The program: parses, calls a command, and gives every fault its exit status.</summary>
internal sealed class CommandLine(Workbench workbench, Terminal terminal)
{
    private const string Suggest = "[suggest";

    private static readonly string[] Examples =
    [
        "sensorlab rehearse practice --iso 100,400",
        "sensorlab characterise practice --out practice.json --report practice-report",
        "sensorlab place practice.json --iso 400 --tone 2.7",
    ];

    /// <summary>Runs one command.</summary>
    /// <param name="args">The words after the program's name.</param>
    /// <param name="cancellation">Cancels as Ctrl-C and SIGTERM do.</param>
    /// <returns>One of <see cref="ExitStatus"/>.</returns>
    [SuppressMessage("Design", "CA1031", Justification = "The one place where every fault ends: in an exit status and a sentence, never in a stack trace.")]
    public async Task<int> RunAsync(IReadOnlyList<string> args, CancellationToken cancellation = default)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        using PosixSignalRegistration interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
        using PosixSignalRegistration terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);
        try
        {
            RequireWords(args);
            return await InvokeAsync(args, stop.Token);
        }
        catch (Exception fault)
        {
            return Report(fault);
        }

        // Who asks a second time does not want to wait for the end of what is being done: the system ends the program then.
        void Stop(PosixSignalContext signal)
        {
            signal.Cancel = !stop.IsCancellationRequested;
            stop.Cancel();
        }
    }

    private async Task<int> InvokeAsync(IReadOnlyList<string> args, CancellationToken cancellation)
    {
        // @x is a word like any other here: a folder may be called so.
        var parser = new ParserConfiguration { EnablePosixBundling = false, ResponseFileTokenReplacer = null };
        ParseResult words = Root().Parse(args, parser);
        if (words.Errors.Count > 0 && words.Action is null or ParseErrorAction)
        {
            Complain(words);
            return ExitStatus.Usage;
        }

        // Completion's words come in one piece; the terminal takes lines.
        bool isAsked = args.Count > 0 && args[0].StartsWith(Suggest, StringComparison.Ordinal);
        using var asked = new StringWriter { NewLine = "\n" };
        if (!isAsked && words.Action is not (HelpWithExamples or VersionAction))
        {
            HashLibrary.Require();
        }

        var streams = new InvocationConfiguration
        {
            Output = isAsked ? asked : terminal.Output,
            Error = terminal.Error,
            EnableDefaultExceptionHandler = false,
            ProcessTerminationTimeout = null,
        };
        int status = await words.InvokeAsync(streams, cancellation);
        WriteLines(asked.ToString());
        return status;
    }

    private void WriteLines(string text)
    {
        foreach (string line in text.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            terminal.Output.WriteLine(line);
        }
    }

    private static void RequireWords(IReadOnlyList<string> args)
    {
        if (args.Any(word => word.Length == 0 || word.Contains('\0', StringComparison.Ordinal)))
        {
            throw new UsageException("one of the words is empty, or holds a sign that no name can.");
        }
    }

    private void Complain(ParseResult words)
    {
        bool isUnknown = words.CommandResult.Command.Subcommands.Count > 0 && words.UnmatchedTokens.Count > 0;
        IEnumerable<string> errors = isUnknown ? [$"there is no command \"{words.UnmatchedTokens[0]}\"."] : words.Errors.Select(e => e.Message).Distinct();
        foreach (string error in errors)
        {
            terminal.Error.WriteLine($"sensorlab: {error}");
        }

        foreach (string question in Meant(words))
        {
            terminal.Error.WriteLine($"sensorlab: did you mean {question}?");
        }

        string command = string.Concat(Path(words.CommandResult).Select(name => name + " "));
        terminal.Error.WriteLine($"sensorlab: \"sensorlab {command}--help\" shows how it is used.");
    }

    // Below the program itself.
    private static IEnumerable<string> Path(CommandResult command) =>
        command.Command is RootCommand ? [] : [.. command.Parent is CommandResult parent ? Path(parent) : [], command.Command.Name];

    // A word that starts with a hyphen was to be an option; the first word of all a command.
    private static IEnumerable<string> Meant(ParseResult words)
    {
        Command command = words.CommandResult.Command;
        string[] options = [.. command.Options.Where(o => !o.Hidden).SelectMany(o => o.Aliases.Prepend(o.Name)).Append("--help")];
        string[] commands = [.. command.Subcommands.Select(c => c.Name)];
        return words.Tokens
            .Where(t => t.Type == TokenType.Argument || words.UnmatchedTokens.Contains(t.Value))
            .Select(t => t.Value)
            .Distinct(StringComparer.Ordinal)
            .Where(word => !options.Contains(word))
            .Select(word => word.StartsWith("--", StringComparison.Ordinal) ? NearestWord.Of(word.Split('=')[0], options) : words.UnmatchedTokens is [var first, ..] && first == word ? NearestWord.Of(word, commands) : null)
            .OfType<string>()
            .Distinct(StringComparer.Ordinal);
    }

    // To name a fault may take parts of the program that were not needed before, and no file may be left to open them with.
    private int Report(Exception fault)
    {
        try
        {
            return Tell(fault);
        }
        catch (Exception e) when (e is FileNotFoundException or FileLoadException)
        {
            terminal.Error.WriteLine("sensorlab: a part of the program cannot be loaded: the system lets it open too few files, or the part is missing.");
            terminal.Error.WriteLine("sensorlab: allow more open files, as with ulimit -n 1024, measure with fewer --jobs, or install the program again.");
            return ExitStatus.File;
        }
    }

    private int Tell(Exception fault)
    {
        (int status, string message) = CommandFaults.Of(fault);
        terminal.Error.WriteLine($"sensorlab: {message}");
        foreach (ShelfBody body in (fault as BodyUnknownException)?.Bodies ?? [])
        {
            terminal.Error.WriteLine($"  {body.Name}");
        }

        Presentation.FindingText.Write(terminal.Error, FindingsOf(fault));
        return status;
    }

    private static IReadOnlyList<Finding> FindingsOf(Exception fault) => fault switch
    {
        FrameSetRefusedException refused => refused.Findings,
        IsoUnmeasuredException unmeasured => unmeasured.Findings,
        SwatchRefusedException refused => refused.Findings,
        JobRefusedException refused => refused.Findings,
        ProfilesNotComparableException refused => refused.Findings,
        FindingsNotAcceptedException refused => refused.Findings,
        _ => [],
    };

    private RootCommand Root()
    {
        var root = new RootCommand("Measures what a camera's sensor can hold: stops above and below middle grey, with their uncertainty.");

        // Of the parser's own directives the one that completion asks with is kept.
        foreach (Directive directive in root.Directives.Where(d => d is not SuggestDirective).ToArray())
        {
            root.Directives.Remove(directive);
        }

        root.Add(BenchCommand.Create(workbench, terminal));
        root.Add(CharacteriseCommand.Create(workbench, terminal));
        root.Add(AssignCommand.Create(workbench, terminal));
        root.Add(IntakeCommand.Create(workbench, terminal));
        root.Add(PlanCommand.Create(workbench, terminal));
        root.Add(TargetCommand.Create(terminal));
        root.Add(PlaceCommand.Create(workbench, terminal));
        root.Add(PocketCommand.Create(workbench, terminal));
        root.Add(SwatchCommand.Create(workbench, terminal));
        root.Add(DebriefCommand.Create(workbench, terminal));
        root.Add(ConfirmCommand.Create(workbench, terminal));
        root.Add(ReportCommand.Create(workbench, terminal));
        root.Add(RetestCommand.Create(workbench, terminal));
        root.Add(PublishCommand.Create(workbench, terminal));
        root.Add(VerifyCommand.Create(terminal));
        root.Add(KeyCommand.Create(workbench, terminal));
        root.Add(RehearseCommand.Create(workbench, terminal));
        root.Add(ShelfCommand.Create(workbench, terminal));
        root.Add(SettingsCommand.Create(workbench, terminal));
        root.Add(CompletionCommand.Create(terminal));
        foreach (Option option in root.Options)
        {
            if (option is HelpOption help)
            {
                help.Action = new HelpWithExamples(root, Examples);
            }
            else if (option is VersionOption version)
            {
                version.Action = new VersionAction();
            }
        }

        return root;
    }
}
