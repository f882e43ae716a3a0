using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings;

/// <summary>How findings from the statistics are written.</summary>
internal static class FlawFinding
{
    public static Finding Note(string code, int? iso, double? size, string unit, FormattableString message, string remedy) =>
        Create(code, FindingSeverity.Note, iso, size, unit, message, remedy);

    public static Finding Warning(string code, int? iso, double? size, string unit, FormattableString message, string remedy) =>
        Create(code, FindingSeverity.Warning, iso, size, unit, message, remedy);

    public static Finding Refusal(string code, int? iso, double? size, string unit, FormattableString message, string remedy) =>
        Create(code, FindingSeverity.Refusal, iso, size, unit, message, remedy);

    /// <summary>The finding with the frames of some levels, by name.</summary>
    public static Finding In(this Finding finding, IEnumerable<EvidenceLevel> levels) =>
        finding with { Frames = [.. levels.SelectMany(l => l.Files).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)] };

    /// <summary>The finding of one channel, where it is not one of all.</summary>
    public static Finding For(this Finding finding, IReadOnlyCollection<string> names, int channels) =>
        names.Count == 1 && channels > 1 ? finding with { Channel = names.Single() } : finding;

    /// <summary>"R", "R and B", "R, G1 and B".</summary>
    public static string Listed(IReadOnlyList<string> names) =>
        names.Count < 2 ? string.Concat(names) : $"{string.Join(", ", names.Take(names.Count - 1))} and {names[^1]}";

    private static Finding Create(string code, FindingSeverity severity, int? iso, double? size, string unit, FormattableString message, string remedy) => new()
    {
        Code = code,
        Severity = severity,
        Iso = iso,
        Size = size,
        SizeUnit = size is null ? null : unit,
        Message = message.ToString(CultureInfo.InvariantCulture),
        Remedy = remedy,
    };
}
