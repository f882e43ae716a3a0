using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.Diagnostics.CodeAnalysis;
using System.Runtime.InteropServices;
using SensorLab.Cli.Commands;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;
using SensorLab.Publishing.Bundles;
using SensorLab.Reports;
using SensorLab.Retest;

namespace SensorLab.Cli;

/// <summary>The program: parses, calls a command, and gives every fault its exit status.</summary>
internal sealed class CommandLine(Workbench workbench, Terminal terminal)
{
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

        var streams = new InvocationConfiguration
        {
            Output = terminal.Output,
            Error = terminal.Error,
            EnableDefaultExceptionHandler = false,
            ProcessTerminationTimeout = null,
        };
        return await words.InvokeAsync(streams, cancellation);
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
        foreach (string error in words.Errors.Select(e => e.Message).Distinct())
        {
            terminal.Error.WriteLine($"sensorlab: {error}");
        }

        string command = words.CommandResult.Command is RootCommand ? string.Empty : words.CommandResult.Command.Name + " ";
        terminal.Error.WriteLine($"sensorlab: \"sensorlab {command}--help\" shows how it is used.");
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
        Presentation.FindingText.Write(terminal.Error, FindingsOf(fault));
        return status;
    }

    private static IReadOnlyList<Finding> FindingsOf(Exception fault) => fault switch
    {
        FrameSetRefusedException refused => refused.Findings,
        IsoUnmeasuredException unmeasured => unmeasured.Findings,
        SwatchRefusedException refused => refused.Findings,
        ProfilesNotComparableException refused => refused.Findings,
        FindingsNotAcceptedException refused => refused.Findings,
        _ => [],
    };

    private RootCommand Root()
    {
        var root = new RootCommand("Measures what a camera's sensor can hold: stops above and below middle grey, with their uncertainty.");
        root.Directives.Clear();
        root.Add(CharacteriseCommand.Create(workbench, terminal));
        root.Add(AssignCommand.Create(workbench, terminal));
        root.Add(IntakeCommand.Create(workbench, terminal));
        root.Add(PlanCommand.Create(workbench, terminal));
        root.Add(TargetCommand.Create(terminal));
        root.Add(PlaceCommand.Create(terminal));
        root.Add(PocketCommand.Create(workbench, terminal));
        root.Add(SwatchCommand.Create(workbench, terminal));
        root.Add(ReportCommand.Create(workbench, terminal));
        root.Add(RetestCommand.Create(workbench, terminal));
        root.Add(PublishCommand.Create(workbench, terminal));
        root.Add(VerifyCommand.Create(terminal));
        root.Add(KeyCommand.Create(workbench, terminal));
        root.Add(RehearseCommand.Create(workbench, terminal));
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
