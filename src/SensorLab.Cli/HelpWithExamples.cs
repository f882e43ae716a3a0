using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace SensorLab.Cli;

/// <summary>The parser's help in 80 columns, with examples that can be copied.</summary>
internal sealed class HelpWithExamples(RootCommand root, IReadOnlyList<string> rootExamples) : SynchronousCommandLineAction
{
    private const string ProgramName = "sensorlab";

    private readonly HelpAction _help = new() { MaxWidth = 80 };

    public override bool ClearsParseErrors => true;

    public override int Invoke(ParseResult parseResult)
    {
        InvocationConfiguration streams = parseResult.InvocationConfiguration;
        TextWriter output = streams.Output;
        using var text = new StringWriter { NewLine = "\n" };
        streams.Output = text;
        _help.Invoke(parseResult);
        streams.Output = output;

        // The parser names the program after its file; people call it by the name of its launcher.
        foreach (string line in text.ToString().TrimEnd().Split('\n'))
        {
            output.WriteLine(line.TrimEnd().Replace($"  {RootCommand.ExecutableName} ", $"  {ProgramName} ", StringComparison.Ordinal));
        }

        Command command = parseResult.CommandResult.Command;
        output.WriteLine();
        output.WriteLine("Examples:");
        foreach (string example in command == root ? rootExamples : (command as ExampleCommand)?.Examples ?? [])
        {
            output.WriteLine($"  {example}");
        }

        return ExitStatus.Done;
    }
}
