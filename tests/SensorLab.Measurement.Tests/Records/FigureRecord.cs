using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Findings;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Measurement.Tests.Records;

/// <summary>What a rehearsed set gives, line by line: a change of the measurement shows which figures it moves, and by how much.</summary>
/// <remarks>Whether they are right is what studies and the tests of known truth say; the record says that they are the same.</remarks>
internal static class FigureRecord
{
    /// <summary>Digits of a figure; two more than any uncertainty needs.</summary>
    private const string Digits = "G6";

    /// <summary>A last digit is a hundred-thousandth of a figure at the most, and what lies half-way is rounded to either side.</summary>
    private const double Tolerance = 2e-5;

    /// <summary>Compares a set's figures and findings with those on record.</summary>
    /// <param name="isos">What the checks look at.</param>
    /// <param name="name">The record's name.</param>
    public static void Verify(IReadOnlyList<IsoEvidence> isos, string name)
    {
        IReadOnlyList<Finding> findings = IsoChecks.Examine(isos);
        IReadOnlyList<IsoProfile> profiles = FindingConsequences.Applied(isos.Select(i => i.Profile), findings);
        StringBuilder text = new();
        foreach (IsoProfile iso in profiles)
        {
            string own = $"{iso.Iso}";
            Add(text, own, iso.Latitude);
            Add(text, own, iso.Latitude.AboveEv?.Budget);
            AddEach(text, own + " snr", iso.SnrCurve.Where((_, i) => i % (1 + (iso.SnrCurve.Count / 6)) == 0));
            Add(text, own, iso.Channels[^1]);
            LevelRecord dark = iso.Levels.First(l => l.Role == RoleName.Dark);
            LevelRecord[] bracket = [.. iso.Levels.Where(l => l.Role == RoleName.Bracket)];
            AddEach(text, own + " level", new[] { dark, bracket[bracket.Length / 2], bracket[^1] }.Select(l => l.Channels[^1] with { Histogram = null }));
        }

        AddEach(text, "fitted finding", isos.SelectMany(i => i.Fitted.Findings));
        AddEach(text, "finding", findings);
        Verify(text, name);
    }

    /// <summary>Compares what previews show with what is on record.</summary>
    /// <param name="previews">The looks.</param>
    /// <param name="findings">What was found in them.</param>
    /// <param name="name">The record's name.</param>
    public static void Verify(IReadOnlyList<PreviewProfile> previews, IReadOnlyList<Finding> findings, string name)
    {
        StringBuilder text = new();
        AddEach(text, "look", previews.Select(p => p with { ToneCurve = [.. p.ToneCurve.Where((_, i) => i % 5 == 0)] }));
        AddEach(text, "finding", findings);
        Verify(text, name);
    }

    private static void Verify(StringBuilder text, string name) =>
        GoldenFile.VerifyNumbers(text.ToString(), $"tests/SensorLab.Measurement.Tests/Records/{name.Replace(' ', '-')}.txt", Tolerance);

    private static void AddEach<T>(StringBuilder text, string path, IEnumerable<T> values)
    {
        foreach ((int i, T value) in values.Index())
        {
            Add(text, string.Create(CultureInfo.InvariantCulture, $"{path} {i}"), value);
        }
    }

    private static void Add<T>(StringBuilder text, string path, T value) => Add(text, path, JsonSerializer.SerializeToNode(value));

    // A line for each object, with the values that are no objects themselves; a figure's numbers follow each other.
    private static void Add(StringBuilder text, string path, JsonNode? node)
    {
        IEnumerable<(string Name, JsonNode? Value)> parts = node switch
        {
            null => [],
            JsonArray array => array.Select((n, i) => ($"{i}", n)),
            _ => node.AsObject().Select(p => (p.Key, p.Value)),
        };
        (string Name, JsonNode? Value)[] all = [.. parts.Where(p => p.Value is not null && p.Name != nameof(Figure.Budget))];
        bool isFigure = all.Any(p => p.Name is nameof(Figure.Lower95));
        string[] plain = [.. all.Where(p => p.Value is JsonValue).Select(p => (isFigure ? string.Empty : p.Name + " ") + TextOf(p.Value!.AsValue()))];
        if (plain.Length > 0)
        {
            text.Append(path).Append(": ").AppendJoin(' ', plain);
            if (parts.FirstOrDefault(p => p.Name == nameof(Figure.Budget)).Value is { } budget)
            {
                text.Append(" with its budget ").Append(TextOf(budget[nameof(FigureBudget.StandardUncertainty)]!.AsValue()));
            }

            text.Append('\n');
        }

        foreach ((string name, JsonNode? value) in all.Where(p => p.Value is not JsonValue))
        {
            Add(text, $"{path} {name}", value);
        }
    }

    private static string TextOf(JsonValue value) => value.GetValueKind() == JsonValueKind.Number
        ? value.Deserialize<double>().ToString(Digits, CultureInfo.InvariantCulture)
        : value.ToString();
}
