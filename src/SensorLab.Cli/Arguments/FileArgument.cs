using System.CommandLine;
using System.CommandLine.Parsing;

namespace SensorLab.Cli.Arguments;

/// <summary>An argument that is a file. An option that the command does not know must not pass for a file's name.</summary>
internal static class FileArgument
{
    /// <summary>One file.</summary>
    /// <param name="name">What the help calls it.</param>
    /// <param name="description">What it is for.</param>
    public static Argument<string> Create(string name, string description)
    {
        var argument = new Argument<string>(name) { Description = description };
        argument.Validators.Add(RefuseOptions);
        return argument;
    }

    /// <summary>One file or more.</summary>
    /// <param name="name">What the help calls each.</param>
    /// <param name="description">What they are for.</param>
    public static Argument<string[]> Several(string name, string description)
    {
        var argument = new Argument<string[]>(name) { Description = description, Arity = ArgumentArity.OneOrMore };
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
