using System.CommandLine;

namespace SensorLab.Cli.Arguments;

/// <summary>The argument PROFILE.json.</summary>
internal static class ProfileArgument
{
    private const string Name = "PROFILE.json";

    /// <summary>One profile.</summary>
    /// <param name="description">What it is for.</param>
    public static Argument<string> Create(string description) => FileArgument.Create(Name, description);

    /// <summary>One profile or more.</summary>
    /// <param name="description">What they are for.</param>
    public static Argument<string[]> Several(string description) => FileArgument.Several(Name, description);
}
