using System.CommandLine;
using System.CommandLine.Invocation;
using System.Reflection;

namespace SensorLab.Cli;

/// <summary>Writes the program's version, and the commit that it was built from where it was built from one.</summary>
internal sealed class VersionAction : SynchronousCommandLineAction
{
    public override bool ClearsParseErrors => true;

    /// <summary>The version, without the commit.</summary>
    public static string Version => Parts[0];

    private static string[] Parts => typeof(VersionAction).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion.Split('+');

    public override int Invoke(ParseResult parseResult)
    {
        string commit = Parts is [_, var revision, ..] ? $" (commit {revision})" : string.Empty;
        parseResult.InvocationConfiguration.Output.WriteLine($"SensorLab {Version}{commit}");
        return ExitStatus.Done;
    }
}
