using System.CommandLine;
using System.CommandLine.Invocation;
using System.Reflection;

namespace SensorLab.Cli;

/// <summary>Writes the program's version, and the commit that it was built from where it was built from one.</summary>
internal sealed class VersionAction : SynchronousCommandLineAction
{
    public override bool ClearsParseErrors => true;

    public override int Invoke(ParseResult parseResult)
    {
        string[] version = typeof(VersionAction).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion.Split('+');
        string commit = version.Length > 1 ? $" (commit {version[1]})" : string.Empty;
        parseResult.InvocationConfiguration.Output.WriteLine($"SensorLab {version[0]}{commit}");
        return ExitStatus.Done;
    }
}
