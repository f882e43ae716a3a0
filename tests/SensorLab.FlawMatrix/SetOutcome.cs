using SensorLab.Profiles;

namespace SensorLab.FlawMatrix;

/// <summary>What came of one set of the study.</summary>
/// <param name="Flaws">What went wrong with it, as rehearse takes it.</param>
/// <param name="Body">The body's name.</param>
/// <param name="Seed">The seed.</param>
/// <param name="Verdict">The verdict.</param>
/// <param name="IsNamed">Whether every flaw is named, whatever the figures.</param>
/// <param name="Wrong">The figures that are not right.</param>
/// <param name="Findings">What was found.</param>
internal sealed record SetOutcome(string Flaws, string Body, ulong Seed, Verdict Verdict, bool IsNamed, IReadOnlyList<string> Wrong, IReadOnlyList<Finding> Findings)
{
    /// <summary>The outcome on one line.</summary>
    public string Line =>
        $"{Verdict} {Flaws} {Body} seed {Seed}: {(Wrong.Count > 0 ? string.Join("; ", Wrong) : "all right")} | {(Findings.Count > 0 ? string.Join(", ", Findings.Select(f => $"{f.Code}{(f.Severity == FindingSeverity.Note ? string.Empty : "!")}{(f.Size is { } s ? FormattableString.Invariant($" {s:G3}") : string.Empty)}").Distinct()) : "nothing found")}";
}
