using System.Globalization;
using SensorLab.Pixels.Defects;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Target;

/// <summary>lines-dead: columns or rows that are dead, weak or bright; they are the body's, hence one finding a set.</summary>
internal sealed class LinesDeadCheck : IIsoSeriesCheck
{
    /// <summary>Share of its neighbours' signal below which a line counts as dead.</summary>
    private const double DeadShare = 0.1;

    /// <summary>Lines told one by one.</summary>
    private const int MostNamed = 6;

    public IEnumerable<Finding> Examine(IReadOnlyList<IsoEvidence> isos)
    {
        var lines = isos.SelectMany(i => i.Levels).Select(l => l.Statistics.Area.DeadLines).FirstOrDefault(d => d.Count > 0)?
            .GroupBy(l => (l.IsRow, l.Photosite))
            .OrderBy(g => g.Key)
            .ToArray() ?? [];
        if (lines.Length == 0)
        {
            yield break;
        }

        string[] told = [.. lines.Take(MostNamed).Select(g => Told(g.Key.IsRow, g.Key.Photosite, [.. g]))];
        string rest = lines.Length > MostNamed ? $", and {lines.Length - MostNamed} more" : string.Empty;
        yield return FlawFinding.Note(
            FindingCode.LinesDead,
            null,
            lines.Length,
            "count",
            $"{(lines.Length == 1 ? "A line does" : $"{lines.Length} lines do")} not answer as the lines beside: {string.Join("; ", told)}{rest} (counted from 0 at the active area's top left). Compensated: they were kept out of all figures.",
            "Nothing to do for the figures. In pictures the lines show in even, dark areas: map them in the body's menu if it offers that, or have them mapped by the maker.");
    }

    private static string Told(bool isRow, int photosite, DeadLine[] channels)
    {
        double lit = channels.MaxBy(c => Math.Abs(c.LitOffShare)).LitOffShare;
        double dark = channels.MaxBy(c => Math.Abs(c.DarkOffDn)).DarkOffDn;
        string what = lit < DeadShare - 1 ? "is dead"
            : lit < 0 && dark == 0 ? string.Create(CultureInfo.InvariantCulture, $"answers {-lit:P1} weaker")
            : lit > 0 && dark == 0 ? string.Create(CultureInfo.InvariantCulture, $"answers {lit:P1} stronger")
            : string.Create(CultureInfo.InvariantCulture, $"reads {Math.Abs(dark):F1} DN {(dark > 0 ? "higher" : "lower")} without light");
        return $"{(isRow ? "row" : "column")} {photosite.ToString(CultureInfo.InvariantCulture)} {what}";
    }
}
