using System.CommandLine;

namespace SensorLab.Cli.Arguments;

/// <summary>The argument PROFILE.json. An option that the command does not know must not pass for a file's name.</summary>
internal static class ProfileArgument
{
    public static Argument<string> Create(string description)
    {
        var argument = new Argument<string>("PROFILE.json") { Description = description };
        argument.Validators.Add(result =>
        {
            string word = result.Tokens.Count > 0 ? result.Tokens[0].Value : string.Empty;
            if (word.StartsWith('-'))
            {
                result.AddError($"\"{word}\" is not an option of this command; a file of that name is written ./{word}.");
            }
        });
        return argument;
    }
}
