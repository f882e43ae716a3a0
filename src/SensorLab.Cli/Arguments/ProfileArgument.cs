using System.CommandLine;
using System.CommandLine.Parsing;

namespace SensorLab.Cli.Arguments;

/// <summary>The argument PROFILE.json. An option that the command does not know must not pass for a file's name.</summary>
internal static class ProfileArgument
{
    private const string Name = "PROFILE.json";

    /// <summary>One profile.</summary>
    /// <param name="description">What it is for.</param>
    public static Argument<string> Create(string description)
    {
        var argument = new Argument<string>(Name) { Description = description };
        argument.Validators.Add(RefuseOptions);
        return argument;
    }

    /// <summary>One profile or more.</summary>
    /// <param name="description">What they are for.</param>
    public static Argument<string[]> Several(string description)
    {
        var argument = new Argument<string[]>(Name) { Description = description, Arity = ArgumentArity.OneOrMore };
        argument.Validators.Add(RefuseOptions);
        return argument;
    }

    private static void RefuseOptions(ArgumentResult result)
    {
        if (result.Tokens.Select(t => t.Value).FirstOrDefault(word => word.StartsWith('-')) is { } word)
        {
            result.AddError($"\"{word}\" is not an option of this command; a file of that name is written ./{word}.");
        }
    }
}
