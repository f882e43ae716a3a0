using System.Globalization;
using SensorLab.Retest;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;

namespace SensorLab.Reports.Retest;

/// <summary>The differences at one ISO, one row a kind of figure: the channel that is least sure to lie within its margin.</summary>
/// <param name="Heading">The chart's words.</param>
/// <param name="Rows">The rows, in the document's order.</param>
internal sealed record RetestChartModel(ChartHeading Heading, IReadOnlyList<RetestRow> Rows)
{
    public static RetestChartModel From(RetestResult result, int iso)
    {
        RetestRow[] rows = [.. result.Figures
            .Where(f => f.Address.Iso == iso && f.Margin is not null)
            .GroupBy(f => f.Address.Name)
            .Select(g => RetestRow.Of(g.MaxBy(Rank)!))];
        string number = iso.ToString(CultureInfo.InvariantCulture);
        string sentence = SentenceOf(rows);
        string model = string.Join(' ', new[] { result.BodyBefore.Maker, result.BodyBefore.Model }.OfType<string>());
        return new RetestChartModel(
            new ChartHeading(
                $"What differs at ISO {number}, against what matters",
                $"{(model.Length > 0 ? model : "Unnamed body")}: {SideOf(result, result.BodyBefore)}, then {SideOf(result, result.BodyAfter)}",
                sentence,
                $"Differences at ISO {number} with their 95 % intervals, each in its own margin. {sentence}"),
            rows);
    }

    private static string SideOf(RetestResult result, BodyIdentity body) =>
        result.IsTwoBodies ? $"serial number {body.SerialNumber}" : $"firmware {body.Firmware ?? "unknown"}";

    /// <summary>Changed before undecided before equivalent; among equals the one that reaches farthest.</summary>
    private static double Rank(ComparedFigure figure)
    {
        double verdict = figure.Verdict switch
        {
            RetestVerdict.Changed => 2,
            RetestVerdict.Undecided => 1,
            _ => 0,
        };
        double reach = figure.Difference is { Value: { } value } ? Math.Abs(value) / figure.Margin!.Value : 1;
        return verdict + (reach / (1 + reach));
    }

    private static string SentenceOf(RetestRow[] rows)
    {
        string[] changed = [.. rows.Where(r => r.Verdict == RetestVerdict.Changed).Select(r => r.Kind)];
        string[] open = [.. rows.Where(r => r.Verdict == RetestVerdict.Undecided).Select(r => r.Kind)];
        return changed.Length + open.Length == 0
            ? "Every figure judged lies within its margin."
            : string.Join(" ", new[] { Named("Changed", changed), Named("Undecided", open) }.Where(s => s.Length > 0));
    }

    private static string Named(string verdict, string[] names) => names.Length == 0 ? string.Empty
        : $"{verdict}: {string.Join(", ", names.Take(4))}{(names.Length > 4 ? $" and {names.Length - 4} more" : string.Empty)}.";
}
