using System.CommandLine;

namespace SensorLab.Cli.Arguments;

/// <summary>The argument PROFILE.json.</summary>
internal static class ProfileArgument
{
    public static Argument<string> Create(string description) => FileArgument.Create("PROFILE.json", description);
}
