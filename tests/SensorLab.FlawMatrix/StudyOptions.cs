using System.Globalization;
using SensorLab.Simulation.Flaws;

namespace SensorLab.FlawMatrix;

/// <summary>What the command line asks for.</summary>
internal sealed record StudyOptions
{
    private const string ResultsSwitch = "--write-results";

    public const string Usage = """
        Usage: [--part matrix|clean|pairs|foreign] [--flaw CODE[,CODE]] [--name TEXT] [--sizes A,B] [--seeds N] [--first-seed N] [--sets N] [--body TEXT] [--scale N] [--jobs N] [--tell all|found|printed|neither] [--output FILE] [--write-results (whole parts)]
        """;

    /// <summary>matrix, clean, pairs or foreign; null for all four.</summary>
    public string? Part { get; private init; }

    /// <summary>Codes of the flaws to try; empty for all.</summary>
    public IReadOnlyList<string> Flaws { get; private init; } = [];

    /// <summary>A part of the names of foreign flaws to try; null for all.</summary>
    public string? Name { get; private init; }

    /// <summary>Sizes in place of the ladder's; empty for the ladder's.</summary>
    public IReadOnlyList<double> Sizes { get; private init; } = [];

    /// <summary>Sets of a flaw, a size and a body.</summary>
    public int Seeds { get; private init; } = 20;

    public int FirstSeed { get; private init; } = 1;

    /// <summary>Clean sets of a body.</summary>
    public int CleanSets { get; private init; } = 52;

    /// <summary>A part of a body's name; null for the part's own bodies.</summary>
    public string? Body { get; private init; }

    /// <summary>By how much rows and columns are more than the study's own.</summary>
    public int Scale { get; private init; } = 1;

    public int Jobs { get; private init; } = Math.Min(2, Environment.ProcessorCount);

    /// <summary>The mildest verdict whose sets are told one by one.</summary>
    public Verdict Tell { get; private init; } = Verdict.Neither;

    public string? Output { get; private init; }

    /// <summary>Whether <c>RESULTS.md</c> is to state the run: whole parts alone, on bodies of the study's own size.</summary>
    public bool WritesResults { get; private init; }

    private bool IsWhole => Flaws.Count == 0 && Name is null && Sizes.Count == 0 && Body is null && Scale == 1;

    /// <summary>Reads the arguments; null where they are not understood.</summary>
    public static StudyOptions? Parse(IReadOnlyList<string> arguments)
    {
        StudyOptions? options = new();
        foreach ((string name, string value) in Pairs([.. arguments.Where(a => a != ResultsSwitch)]))
        {
            options = options?.With(name, value);
        }

        bool writes = arguments.Contains(ResultsSwitch);
        return options is null || (writes && !options.IsWhole) ? null : options with { WritesResults = writes };
    }

    public bool Includes(string part) => Part is null || Part == part;

    public IReadOnlyList<MatrixBody> BodiesOr(IReadOnlyList<MatrixBody> own) =>
        Body is { } text ? [.. MatrixBody.All.Where(b => b.Name.Contains(text, StringComparison.OrdinalIgnoreCase))] : own;

    private static IEnumerable<(string Name, string Value)> Pairs(string[] arguments) =>
        arguments.Chunk(2).Select(pair => (pair[0], pair.Length > 1 ? pair[1] : string.Empty));

    private StudyOptions? With(string name, string value)
    {
        bool whole = int.TryParse(value, CultureInfo.InvariantCulture, out int number) && number > 0;
        return name switch
        {
            "--part" when value is "matrix" or "clean" or "pairs" or "foreign" => this with { Part = value },
            "--flaw" when value.Split(',').All(code => FlawCatalogue.All.Any(f => f.Code == code)) => this with { Flaws = value.Split(','), Part = Part ?? "matrix" },
            "--name" when value.Length > 0 => this with { Name = value, Part = Part ?? "foreign" },
            "--sizes" when value.Length > 0 => this with { Sizes = [.. value.Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture))] },
            "--seeds" when whole => this with { Seeds = number },
            "--first-seed" when whole => this with { FirstSeed = number },
            "--sets" when whole => this with { CleanSets = number },
            "--body" when MatrixBody.All.Any(b => b.Name.Contains(value, StringComparison.OrdinalIgnoreCase)) => this with { Body = value },
            "--scale" when whole => this with { Scale = number },
            "--jobs" when whole => this with { Jobs = number },
            "--tell" when value is "all" or "found" or "printed" or "neither" => this with { Tell = value switch { "all" => Verdict.Right, "found" => Verdict.Found, "printed" => Verdict.Printed, _ => Verdict.Neither } },
            "--output" when value.Length > 0 => this with { Output = value },
            _ => null,
        };
    }
}
