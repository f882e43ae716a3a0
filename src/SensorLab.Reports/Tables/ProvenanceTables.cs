using SensorLab.Profiles;

namespace SensorLab.Reports.Tables;

/// <summary>The tables of what a profile rests on.</summary>
internal static class ProvenanceTables
{
    /// <summary>The findings, the worst first.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static ReportTable Findings(SensorProfile profile) => new(
        "findings",
        "Findings, the worst first",
        [
            new("severity", "Severity", ColumnKind.Word),
            new("code", "Code", ColumnKind.Word),
            new("iso", "ISO", ColumnKind.Number),
            new("channel", "Channel", ColumnKind.Word),
            new("size", "Size", ColumnKind.Number),
            new("sizeUnit", "Unit", ColumnKind.Word),
            new("message", "What is the matter", ColumnKind.Words),
            new("remedy", "Remedy", ColumnKind.Words),
            new("frames", "Frames", ColumnKind.Words),
        ],
        [
            .. profile.Findings.OrderByDescending(f => f.Severity).Select(f => (IReadOnlyList<TableCell>)
            [
                TableCell.Words(SeverityWord(f.Severity)),
                TableCell.Words(f.Code),
                TableCell.Whole(f.Iso),
                TableCell.Words(f.Channel),
                TableCell.Number(f.Size, "0.####"),
                TableCell.Words(f.SizeUnit),
                TableCell.Words(f.Message),
                TableCell.Words(f.Remedy),
                TableCell.Words(string.Join("; ", f.Frames)),
            ]),
        ]);

    /// <summary>Every frame: role, hash, use and, where it was left out, why.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static ReportTable Frames(SensorProfile profile)
    {
        ILookup<string, string> reasons = profile.Findings
            .SelectMany(f => f.Frames.Select(file => (file, f.Code)))
            .Distinct()
            .ToLookup(f => f.file, f => f.Code);
        return new ReportTable(
            "frames",
            "Every frame of the set, what became of it, and the findings that name it",
            [
                new("file", "File", ColumnKind.Words),
                new("role", "Role", ColumnKind.Word),
                new("iso", "ISO", ColumnKind.Number),
                new("exposureSeconds", "Exposure (s)", ColumnKind.Number),
                new("used", "Used", ColumnKind.Word),
                new("findings", "Why, or named by", ColumnKind.Words),
                new("sha256", "SHA-256", ColumnKind.Words),
            ],
            [
                .. profile.Frames.Select(f => (IReadOnlyList<TableCell>)
                [
                    TableCell.Words(f.File),
                    TableCell.Words(f.Role),
                    TableCell.Whole(f.Iso),
                    TableCell.Number(f.ExposureSeconds, "0.#######"),
                    TableCell.Words(f.Used ? "yes" : "no"),
                    TableCell.Words(ReasonOf(f, reasons[f.File])),
                    TableCell.Words(f.Sha256),
                ]),
            ]);
    }

    /// <summary>A severity in a word.</summary>
    /// <param name="severity">The severity.</param>
    public static string SeverityWord(FindingSeverity severity) => severity switch
    {
        FindingSeverity.Refusal => "refused",
        FindingSeverity.Warning => "warning",
        _ => "note",
    };

    // The profile keeps no reason of its own for a frame: the findings that name it are all that is known.
    private static string ReasonOf(FrameRecord frame, IEnumerable<string> codes)
    {
        string named = string.Join(", ", codes.Order(StringComparer.Ordinal));
        return named.Length > 0 ? named : frame.Used ? $"serves as {frame.Role ?? "a frame of the set"}" : "not stated by the profile";
    }
}
