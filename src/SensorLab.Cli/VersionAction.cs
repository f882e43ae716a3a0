using System.CommandLine;
using System.CommandLine.Invocation;

namespace SensorLab.Cli;

/// <summary>Writes the program's version.</summary>
internal sealed class VersionAction : SynchronousCommandLineAction
{
    public override bool ClearsParseErrors => true;

    public override int Invoke(ParseResult parseResult)
    {
        Version version = typeof(VersionAction).Assembly.GetName().Version!;
        parseResult.InvocationConfiguration.Output.WriteLine($"SensorLab {version.ToString(3)}");
        return ExitStatus.Done;
    }
}
