using System.Globalization;
using SensorLab.Simulation.Flaws;

namespace SensorLab.FlawMatrix;

/// <summary>What the command line asks for.</summary>
internal sealed record StudyOptions
{
    public const string Usage = """
        Usage: [--part matrix|clean|pairs] [--flaw CODE[,CODE]] [--sizes A,B] [--seeds N] [--first-seed N] [--sets N] [--body TEXT] [--scale N] [--jobs N] [--tell all|found|neither] [--output FILE]
        """;

    /// <summary>matrix, clean or pairs; null for all three.</summary>
    public string? Part { get; private init; }

    /// <summary>Codes of the flaws to try; empty for all.</summary>
    public IReadOnlyList<string> Flaws { get; private init; } = [];

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

    /// <summary>Reads the arguments; null where they are not understood.</summary>
    public static StudyOptions? Parse(IReadOnlyList<string> arguments)
    {
        StudyOptions? options = new();
        for (int i = 0; i < arguments.Count && options is not null; i += 2)
        {
            options = i + 1 < arguments.Count ? options.With(arguments[i], arguments[i + 1]) : null;
        }

        return options;
    }

    public bool Includes(string part) => Part is null || Part == part;

    public IReadOnlyList<MatrixBody> BodiesOr(IReadOnlyList<MatrixBody> own) =>
        Body is { } text ? [.. MatrixBody.All.Where(b => b.Name.Contains(text, StringComparison.OrdinalIgnoreCase))] : own;

    private StudyOptions? With(string name, string value)
    {
        bool whole = int.TryParse(value, CultureInfo.InvariantCulture, out int number) && number > 0;
        return name switch
        {
            "--part" when value is "matrix" or "clean" or "pairs" => this with { Part = value },
            "--flaw" when value.Split(',').All(code => FlawCatalogue.All.Any(f => f.Code == code)) => this with { Flaws = value.Split(','), Part = Part ?? "matrix" },
            "--sizes" => this with { Sizes = [.. value.Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture))] },
            "--seeds" when whole => this with { Seeds = number },
            "--first-seed" when whole => this with { FirstSeed = number },
            "--sets" when whole => this with { CleanSets = number },
            "--body" when MatrixBody.All.Any(b => b.Name.Contains(value, StringComparison.OrdinalIgnoreCase)) => this with { Body = value },
            "--scale" when whole => this with { Scale = number },
            "--jobs" when whole => this with { Jobs = number },
            "--tell" when value is "all" or "found" or "neither" => this with { Tell = value switch { "all" => Verdict.Right, "found" => Verdict.Found, _ => Verdict.Neither } },
            "--output" => this with { Output = value },
            _ => null,
        };
    }
}
