using System.CommandLine;

namespace SensorLab.Cli.Arguments;

/// <summary>Options whose one word is read by a function that answers null where the word is off.</summary>
internal static class WordOption
{
    /// <summary>An option that may be left out.</summary>
    /// <param name="name">The option.</param>
    /// <param name="helpName">What stands for its value in the help.</param>
    /// <param name="description">What it is for.</param>
    /// <param name="expected">What the word should be, for the error.</param>
    /// <param name="read">Reads the word.</param>
    public static Option<T?> Optional<T>(string name, string helpName, string description, string expected, Func<string, T?> read)
        where T : struct => new(name)
        {
            HelpName = helpName,
            Description = description,
            CustomParser = result =>
            {
                string word = result.Tokens[0].Value;
                T? value = read(word);
                if (value is null)
                {
                    result.AddError($"{name}: \"{word}\" is not {expected}.");
                }

                return value;
            },
        };

    /// <summary>An option that may be given several times.</summary>
    /// <inheritdoc cref="Optional{T}"/>
    public static Option<T[]> Several<T>(string name, string helpName, string description, string expected, Func<string, T?> read)
        where T : struct => new(name)
        {
            HelpName = helpName,
            Description = description,
            Arity = ArgumentArity.OneOrMore,
            DefaultValueFactory = _ => [],
            CustomParser = result =>
            {
                (string Word, T? Value)[] values = [.. result.Tokens.Select(t => (t.Value, read(t.Value)))];
                foreach ((string word, T? value) in values.Where(v => v.Value is null))
                {
                    result.AddError($"{name}: \"{word}\" is not {expected}.");
                }

                return [.. values.Where(v => v.Value is not null).Select(v => v.Value!.Value)];
            },
        };
}
