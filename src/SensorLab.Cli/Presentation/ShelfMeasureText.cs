using System.Globalization;
using SensorLab.Cli.Commands;

namespace SensorLab.Cli.Presentation;

/// <summary>What came of many frame sets, as text.</summary>
internal static class ShelfMeasureText
{
    private const string Indent = "    ";

    /// <summary>The lines of one set.</summary>
    public static IEnumerable<string> Lines(MeasuredOutcome outcome) =>
    [
        $"{outcome.Word}: {outcome.Set}{(outcome.Body is null ? string.Empty : $" ({outcome.Body})")}",
        .. outcome.Reasons.SelectMany(reason => WrappedText.Lines(reason, Indent, Indent)),
    ];

    /// <summary>The last line.</summary>
    public static string Summary(IReadOnlyList<MeasuredOutcome> outcomes, string shelf) => string.Create(
        CultureInfo.InvariantCulture,
        $"{ShelfIntakeText.Count(outcomes.Count, "set")}: {string.Join(", ", outcomes.GroupBy(o => o.Word).Select(g => $"{g.Count()} {g.Key}"))}. Shelf: {shelf}");

    /// <summary>How sets are measured, in words that are the same for the same; the jobs change nothing.</summary>
    public static string WordsOf(CharacterisationOptions options) => string.Create(
        CultureInfo.InvariantCulture,
        $"{VersionAction.Version} {options.Grey} {options.MeterStepEv} {string.Join(';', options.SnrCriteria)} {options.Delivery} {options.Region} {options.Spot}");
}
