using System.Buffers;
using System.Globalization;
using System.Text;
using SensorLab.Files;
using SensorLab.Frames;

namespace SensorLab.Assignment;

/// <summary>An assignment as frames.csv, and how its own rows are told from the user's when it is read again.</summary>
internal static class AssignmentTable
{
    private const string Mark = "assign: ";

    private const string DoubtfulNone = Mark + "none, not sure. ";

    // A number may begin with a sign; no spreadsheet takes it for anything else.
    private static readonly string[] Numbers = ["iso", "exposureSeconds", "aperture", "temperatureCelsius"];

    private static readonly SearchValues<char> NeedQuotes = SearchValues.Create(",;\"\r\n\t");

    private static readonly (string Column, Func<AssignedFrame, FrameRow?, string?> Cell)[] Columns =
    [
        ("file", (f, _) => f.File),
        ("role", (f, r) => f.IsSure || r?.Role is not null || IsFiled(f) ? f.Use.RoleName : string.Empty),
        ("iso", (f, r) => (r?.Iso ?? f.Iso)?.ToString(CultureInfo.InvariantCulture)),
        ("exposureSeconds", (_, r) => Number(r?.ExposureSeconds)),
        ("aperture", (_, r) => Number(r?.ApertureFNumber)),
        ("lightStep", (f, _) => f.Use.LightStep),
        ("light", (f, _) => f.Use.Light),
        ("look", (f, r) => f.Use.Look ?? r?.Look),
        ("mode", (_, r) => r?.Mode),
        ("lens", (_, r) => r?.Lens),
        ("temperatureCelsius", (_, r) => Number(r?.TemperatureCelsius)),
        ("note", (f, r) => r is null || IsOwn(r) || (!f.IsSure && r.Note is null) ? NoteOf(f) : r.Note),
    ];

    /// <summary>What a row says of its frame's use by the user's own hand; null for a row that an assignment wrote, or that says nothing of it.</summary>
    public static FrameUse? SaidBy(FrameRow row) => (row.Role is null && !row.IsSetAside) || IsOwn(row) ? null : UseOf(row);

    /// <summary>The table.</summary>
    /// <param name="frames">The frames.</param>
    /// <param name="rows">The rows that were there before, by file: what the user wrote into other columns stays, and rows of files that are gone.</param>
    public static byte[] Write(IReadOnlyList<AssignedFrame> frames, IReadOnlyDictionary<string, FrameRow> rows)
    {
        HashSet<string> known = [.. frames.Select(f => f.File)];
        var lines = frames.Select(f => (Frame: f, Row: rows.GetValueOrDefault(f.File)))
            .Concat(rows.Where(r => !known.Contains(r.Key)).Select(r => (Frame: new AssignedFrame(r.Value.File, UseOf(r.Value), r.Value.Iso, r.Value.Role is not null || r.Value.IsSetAside, string.Empty), Row: (FrameRow?)r.Value)))
            .Select(l => Columns.Select(c => c.Cell(l.Frame, l.Row) ?? string.Empty).ToArray())
            .OrderBy(l => l[0], StringComparer.Ordinal)
            .ToArray();
        int[] used = [.. Enumerable.Range(0, Columns.Length).Where(c => c < 2 || lines.Any(l => l[c].Length > 0))];
        var text = new StringBuilder();
        text.AppendJoin(',', used.Select(c => Columns[c].Column)).Append('\n');
        foreach (string[] line in lines)
        {
            text.AppendJoin(',', used.Select(c => Quoted(Numbers.Contains(Columns[c].Column) ? line[c] : ForeignText.InCell(line[c].Trim())))).Append('\n');
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static string NoteOf(AssignedFrame frame) =>
        frame.IsSure ? $"{PrefixOf(frame.Use)}{frame.Why}" : $"{(IsFiled(frame) ? DoubtfulNone : Mark + "not sure. ")}{frame.Why}";

    // Left blank, its folder would give the frame a role.
    private static bool IsFiled(AssignedFrame frame) => FramePath.RoleOf(frame.File).Role is not null;

    /// <summary>Whether an assignment wrote a row.</summary>
    /// <remarks>A row that was changed by hand no longer says what its note begins with: it is the user's from then on.</remarks>
    public static bool IsOwn(FrameRow row) => row.Note is { } note
        && (note.StartsWith(row.Role is null && !row.IsSetAside ? Mark : PrefixOf(UseOf(row)), StringComparison.Ordinal)
            || (row.IsSetAside && note.StartsWith(DoubtfulNone, StringComparison.Ordinal)));

    private static string PrefixOf(FrameUse use)
    {
        string step = use.LightStep is { } name ? $", light step {name}" : string.Empty;
        string light = use.Light is { } lamp ? $", light {lamp}" : string.Empty;
        string look = use.Look is { } setting ? $", look {setting}" : string.Empty;
        return $"{Mark}{use.RoleName}{step}{light}{look}. ";
    }

    private static FrameUse UseOf(FrameRow row) => new(row.Role, row.LightStep, row.Role == FrameRole.Light ? row.Light : null, row.Look);

    private static string? Number(double? value) => value?.ToString("R", CultureInfo.InvariantCulture);

    private static string Quoted(string value) =>
        value.AsSpan().IndexOfAny(NeedQuotes) < 0 ? value : $"\"{value.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
