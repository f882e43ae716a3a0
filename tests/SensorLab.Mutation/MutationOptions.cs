using System.Globalization;

namespace SensorLab.Mutation;

/// <summary>What the command line asks for.</summary>
internal sealed record MutationOptions
{
    public const string Usage = "Usage: [--mutants N] [--seed N] [--jobs N] [--place TEXT] [--class TEXT] [--slowest SECONDS] [--again yes] [--list yes] [--write-results]";

    public int Mutants { get; private init; } = 300;

    public int Seed { get; private init; } = 1;

    public int Jobs { get; private init; } = Math.Min(2, Environment.ProcessorCount);

    /// <summary>A part of the places or changes to try; empty for all.</summary>
    public string Place { get; private init; } = string.Empty;

    /// <summary>A part of the names of the classes of tests to run; empty for all.</summary>
    public string TestClass { get; private init; } = string.Empty;

    /// <summary>Classes of tests that take longer without a mutant are left out, for a run in between.</summary>
    public TimeSpan Slowest { get; private init; } = TimeSpan.MaxValue;

    /// <summary>Whether to list the mutants chosen instead of running them.</summary>
    public bool IsListed { get; private init; }

    /// <summary>Whether the survivors of the run on record are asked again, and no others.</summary>
    public bool IsAgain { get; private init; }

    public bool WritesResults { get; private init; }

    /// <summary>Reads the arguments; null where they are not understood.</summary>
    public static MutationOptions? Parse(string[] arguments)
    {
        MutationOptions? options = new() { WritesResults = arguments.Contains("--write-results") };
        foreach (string[] pair in arguments.Where(a => a != "--write-results").Chunk(2))
        {
            options = pair.Length < 2 ? null : options?.With(pair[0], pair[1]);
        }

        bool isPart = options is { Place.Length: > 0 } or { TestClass.Length: > 0 } || options?.Slowest < TimeSpan.MaxValue;
        return options is { WritesResults: true } && isPart ? null : options;
    }

    private MutationOptions? With(string name, string value)
    {
        bool whole = int.TryParse(value, CultureInfo.InvariantCulture, out int number) && number > 0;
        return name switch
        {
            "--mutants" when whole => this with { Mutants = number },
            "--seed" when whole => this with { Seed = number },
            "--jobs" when whole => this with { Jobs = number },
            "--place" => this with { Place = value },
            "--class" => this with { TestClass = value },
            "--slowest" when whole => this with { Slowest = TimeSpan.FromSeconds(number) },
            "--again" when value == "yes" => this with { IsAgain = true },
            "--list" when value == "yes" => this with { IsListed = true },
            _ => null,
        };
    }
}
