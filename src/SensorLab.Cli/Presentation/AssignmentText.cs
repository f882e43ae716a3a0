using System.Globalization;
using SensorLab.Assignment;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>An assignment in 80 columns: what there is at each ISO, what was set aside and why, what is left to ask.</summary>
internal static class AssignmentText
{
    private const string Indent = "  ";

    private const int FilesNamed = 3;

    private const int RowsOfReasons = 12;

    /// <summary>The lines.</summary>
    /// <param name="card">The assignment.</param>
    /// <param name="table">Where frames.csv was written.</param>
    /// <param name="folder">The card's folder, as the user named it.</param>
    public static IEnumerable<string> Lines(CardAssignment card, string table, string folder)
    {
        IReadOnlyList<AssignedFrame> frames = card.Assignment.Frames;
        yield return Text($"{Count(frames.Count, "raw file")}, {Count(card.FilesIgnored, "other file")} beside.");
        yield return string.Empty;
        foreach (string line in Table(frames))
        {
            yield return line;
        }

        foreach (string line in SetAside(frames).Concat(Questions(card)))
        {
            yield return line;
        }

        yield return card.HasAnswer ? Text($"Written: {Printable(table)}") : "Nothing written: there is nothing to assign.";
        foreach (string line in WrappedText.Lines(Verdict(card), string.Empty, Indent))
        {
            yield return line;
        }

        if (card.CanBeCharacterised)
        {
            yield return $"{Indent}sensorlab characterise {Printable(folder)} --out PROFILE.json";
        }
    }

    private static IEnumerable<string> Table(IReadOnlyList<AssignedFrame> frames)
    {
        IGrouping<int, AssignedFrame>[] isos = [.. frames.Where(f => f.Use.Role is not null && f.Iso is not null).GroupBy(f => f.Iso!.Value).OrderBy(g => g.Key)];
        if (isos.Length == 0)
        {
            yield break;
        }

        yield return "   ISO    dark  metered  bracket  light   lights";
        foreach (IGrouping<int, AssignedFrame> iso in isos)
        {
            int[] counts = [.. RoleName.InOrder.Select(r => iso.Count(f => f.Use.RoleName == r))];
            yield return Text($"{iso.Key,6}  {counts[0],6}  {counts[1],7}  {counts[2],7}  {counts[3],5}   {LightsOf(iso)}").TrimEnd();
        }

        yield return string.Empty;
    }

    private static string LightsOf(IEnumerable<AssignedFrame> iso) =>
        Printable(string.Join("; ", iso.Select(f => f.Use.LightStep ?? f.Use.Light).OfType<string>().GroupBy(n => n).Select(g => Text($"{g.Key}: {g.Count()}"))));

    private static IEnumerable<string> SetAside(IReadOnlyList<AssignedFrame> frames)
    {
        IGrouping<string, AssignedFrame>[] reasons = [.. frames.Where(f => f.Use.Role is null && f.IsSure).GroupBy(f => f.Why.Split(':', 2)[0].TrimEnd('.')).OrderByDescending(g => g.Count())];
        if (reasons.Length == 0)
        {
            yield break;
        }

        yield return Text($"{Count(reasons.Sum(r => r.Count()), "frame")} set aside (role none):");
        foreach (IGrouping<string, AssignedFrame> reason in reasons.Take(RowsOfReasons))
        {
            foreach (string line in WrappedText.Lines(Printable($"{reason.Key}: {Files([.. reason.Select(f => f.File)])}"), "- ", Indent))
            {
                yield return line;
            }
        }

        if (reasons.Length > RowsOfReasons)
        {
            yield return Text($"- and {reasons.Length - RowsOfReasons} reasons more; frames.csv has them all.");
        }

        yield return string.Empty;
    }

    private static IEnumerable<string> Questions(CardAssignment card)
    {
        foreach ((int number, AssignmentQuestion question) in card.Assignment.Questions.Index())
        {
            foreach (string line in WrappedText.Lines(Printable($"{question.Question} ({Files(question.Files)})"), Text($"Question {number + 1}: "), Indent))
            {
                yield return line;
            }
        }

        if (card.Assignment.Questions.Count > 0)
        {
            yield return string.Empty;
        }
    }

    private static string Verdict(CardAssignment card)
    {
        int open = card.Assignment.Frames.Count(f => !f.IsSure);
        string left = open == 0 ? string.Empty : $" {Count(open, "frame")} not sure, and left unassigned.";
        return card.CanBeCharacterised
            ? $"{(IsoVerdict.Of(card.Assignment.Frames.Where(f => f.Use.Role is not null).Select(f => f.Iso).OfType<int>(), card.Findings) is { } some ? "As assigned " + some : "As assigned the set can be characterised.")}{left}"
            : $"As assigned the set cannot be characterised; the findings say what is missing.{left}";
    }

    private static string Files(IReadOnlyList<string> files) => files.Count <= FilesNamed
        ? string.Join(", ", files)
        : Text($"{string.Join(", ", files.Take(FilesNamed))} and {files.Count - FilesNamed} more");

    private static string Count(int number, string noun) => Text($"{number} {noun}{(number == 1 ? string.Empty : "s")}");

    private static string Printable(string text) => string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
