using System.Globalization;
using SensorLab.Intakes;
using SensorLab.Profiles;
using SensorLab.Reports;
using Spectre.Console;

namespace SensorLab.Cli.Presentation;

/// <summary>The picture of a frame set as text in 80 columns, readable without colour.</summary>
internal static class IntakeTable
{
    /// <summary>The lines of an intake.</summary>
    public static IReadOnlyList<string> Lines(IntakeReport report) =>
    [
        .. HeadingOf(report),
        string.Empty,
        .. report.Isos.Count == 0 ? [] : TableOf(report).Append(string.Empty),
        .. RemarksOf(report),
        .. FooterOf(report).SelectMany(text => WrappedText.Lines(text, string.Empty, "  ")),
    ];

    private static IEnumerable<string> HeadingOf(IntakeReport report) => report.Body is not { } body
        ? ["No frame could be opened."]
        : BodyLine.Lines(
            body,
            report.RecordingMode?.Description,
            report.Sensor is { } s ? Text($"{s.WidthPixels}x{s.HeightPixels} photosites, {s.FiltersInWords()}") : null);

    private static IEnumerable<string> TableOf(IntakeReport report)
    {
        Table table = new Table().Border(TableBorder.Simple).Width(WrappedText.Width);
        table.AddColumn(new TableColumn("ISO").RightAligned().NoWrap());
        table.AddColumn(new TableColumn("Role").NoWrap());
        table.AddColumn(new TableColumn("Frames").RightAligned().NoWrap());
        table.AddColumn(new TableColumn("Exposures").RightAligned().NoWrap());
        table.AddColumn(new TableColumn("Seconds").NoWrap());
        table.AddColumn("EV from grey");
        foreach (IntakeIso iso in report.Isos)
        {
            AddIso(table, iso);
        }

        using var text = new StringWriter { NewLine = "\n" };
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Ansi = AnsiSupport.No,
            ColorSystem = ColorSystemSupport.NoColors,
            Interactive = InteractionSupport.No,
            Out = new AnsiConsoleOutput(text),
        });
        console.Profile.Width = WrappedText.Width;
        console.Write(table);
        return text.ToString().Split('\n').Select(l => l.TrimEnd()).Where(l => l.Length > 0);
    }

    private static void AddIso(Table table, IntakeIso iso)
    {
        string setting = iso.Iso.ToString(CultureInfo.InvariantCulture);
        foreach (IntakeRole role in iso.Roles)
        {
            table.AddRow(
                setting,
                role.Role,
                role.Frames.ToString(CultureInfo.InvariantCulture),
                role.Exposures.ToString(CultureInfo.InvariantCulture),
                Times(role),
                role.Role == RoleName.Bracket ? Markup.Escape(Reach(iso)) : string.Empty);
            setting = string.Empty;
        }
    }

    /// <summary>What is the matter at each ISO, and with the whole set, by code; the findings themselves tell the rest.</summary>
    private static IEnumerable<string> RemarksOf(IntakeReport report)
    {
        foreach (IntakeIso iso in report.Isos)
        {
            string missing = iso.Missing.Count == 0 ? string.Empty : "missing " + string.Join(", ", iso.Missing);
            foreach (string line in Remark(Text($"ISO {iso.Iso}"), [missing, .. CodesOf(report, iso.Iso)]))
            {
                yield return line;
            }
        }

        foreach (string line in Remark("All frames", CodesOf(report, null)))
        {
            yield return line;
        }
    }

    private static IEnumerable<string> Remark(string whose, IEnumerable<string> parts)
    {
        string text = string.Join("; ", parts.Where(p => p.Length > 0));
        return text.Length == 0 ? [] : WrappedText.Lines(text + ".", whose + ": ", "  ");
    }

    private static IEnumerable<string> CodesOf(IntakeReport report, int? iso)
    {
        foreach ((string word, FindingSeverity severity) in new[] { ("refused for", FindingSeverity.Refusal), ("in doubt for", FindingSeverity.Warning) })
        {
            string[] codes = [.. report.Findings.Where(f => f.Severity == severity && f.Iso == iso).Select(f => f.Code).Distinct().Order(StringComparer.Ordinal)];
            yield return codes.Length == 0 ? string.Empty : $"{word} {string.Join(", ", codes)}";
        }
    }

    private static string Reach(IntakeIso iso)
    {
        if (iso is not { DarkestEv: { } darkest, BrightestEv: { } brightest })
        {
            return string.Empty;
        }

        string clipping = iso.ClippingLevels switch
        {
            null or 0 => "none clips",
            1 => "1 exposure clips",
            { } n => Text($"{n} clip"),
        };
        return Text($"{darkest:+0.0;-0.0;0.0} to {brightest:+0.0;-0.0;0.0}, {clipping}");
    }

    private static string Times(IntakeRole role) => role.Exposures == 1 ? Time(role.ShortestSeconds) : $"{Time(role.ShortestSeconds)} to {Time(role.LongestSeconds)}";

    /// <summary>An exposure as cameras show it: 1/60, 0.4, 2.5.</summary>
    private static string Time(double seconds) => seconds < 0.3
        ? Text($"1/{1 / seconds:0}")
        : Text($"{seconds:0.#}");

    private static IEnumerable<string> FooterOf(IntakeReport report)
    {
        string setAside = report.FramesSetAside == 0 ? string.Empty : Text($"; {report.FramesSetAside} more set aside in frames.csv");
        yield return Text($"{Count(report.RawFiles, "raw file")}, {report.LeftOut.Count} left out{setAside}; {Count(report.FilesIgnored, "other file")} ignored.");
        if (report is { Region: { } region, Spot: { } spot, Sensor: { } sensor })
        {
            double share = (double)region.Width * region.Height / ((double)sensor.WidthPixels * sensor.HeightPixels);
            yield return Text($"Region measured: {region.Width}x{region.Height} from {region.X},{region.Y} ({share:P0} of the frame); spot meter: {spot.Width}x{spot.Height} from {spot.X},{spot.Y}.");
        }

        yield return Verdict(report);
    }

    private static string Verdict(IntakeReport report)
    {
        IReadOnlyList<FindingGroup> causes = FindingGroup.Of(report.Findings);
        int refusals = causes.Count(g => g.Severity == FindingSeverity.Refusal);
        int warnings = causes.Count(g => g.Severity == FindingSeverity.Warning);
        string found = causes.Count == 0
            ? "Nothing was found wrong."
            : $"{Count(refusals, "refusal")}, {Count(warnings, "warning")}, {Count(causes.Count - refusals - warnings, "note")}; each is told with its remedy.";
        string answer = report switch
        {
            { CanBeCharacterised: true } => IsoVerdict.Of(report.Isos.Select(i => i.Iso), report.Findings) ?? "This set can be characterised.",
            { CanBeWithGreyFromSaturation: true } => "This set cannot be characterised as it is; with characterise --grey saturation it can.",
            _ => "This set cannot be characterised.",
        };
        return $"{answer} {found}";
    }

    private static string Count(int number, string noun) => Text($"{number} {noun}{(number == 1 ? string.Empty : "s")}");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
