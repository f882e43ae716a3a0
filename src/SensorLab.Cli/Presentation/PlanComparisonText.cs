using System.Globalization;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>A frame set beside its plan, in 80 columns: what to shoot to finish, as a shot list.</summary>
internal static class PlanComparisonText
{
    private const int FilesNamed = 4;

    private const string Indent = "  ";

    /// <summary>The lines.</summary>
    /// <param name="comparison">The comparison.</param>
    public static IReadOnlyList<string> Lines(PlanComparison comparison) =>
    [
        string.Empty,
        .. comparison.Missing.Count == 0
            ? [Text($"By the plan ({comparison.Protocol} {comparison.ProtocolVersion}) nothing is missing.")]
            : MissingLines(comparison),
        .. comparison.ShotTwice.Count == 0 ? [] : WrappedText.Lines("Shot more often than planned, which does no harm: " + string.Join("; ", comparison.ShotTwice.Select(Excess)) + ".", string.Empty, Indent),
        .. comparison.NotPlanned.Count == 0 ? [] : WrappedText.Lines(NotPlanned(comparison.NotPlanned), string.Empty, Indent),
    ];

    private static IEnumerable<string> MissingLines(PlanComparison comparison)
    {
        int frames = comparison.Missing.Sum(s => s.Frames);
        yield return Text($"By the plan ({comparison.Protocol} {comparison.ProtocolVersion}) {frames} frame{(frames == 1 ? " is" : "s are")} missing. To finish:");
        yield return string.Empty;
        yield return "  No.     ISO  Shutter   Frames  What";
        foreach (PlanStep step in comparison.Missing)
        {
            foreach (string line in step.Actions.SelectMany(a => WrappedText.Lines(Printable(a), "       > ", "         ")))
            {
                yield return line;
            }

            string place = step is { Role: RoleName.Bracket, Ev: { } ev } ? Text($" {ev:+0.0;-0.0} EV") : string.Empty;
            string light = Printable(step.Light ?? step.LightStep ?? string.Empty);
            yield return Text($"{step.Number,5}  {step.Iso,6}  {step.Shutter,-8}  {step.Frames,6}  {step.Role}{place}{(light.Length > 0 ? ", " + light : string.Empty)}");
        }

        yield return string.Empty;
    }

    private static string Excess(PlanExcess excess) =>
        Text($"{excess.Role} ISO {excess.Iso} {(RoleName.IsAtMetersZero(excess.Role) ? string.Empty : excess.Shutter + " ")}by {excess.Frames}");

    private static string NotPlanned(IReadOnlyList<string> files)
    {
        string rest = files.Count > FilesNamed ? Text($" and {files.Count - FilesNamed} more") : string.Empty;
        return Printable($"Not in the plan: {string.Join(", ", files.Take(FilesNamed))}{rest}.");
    }

    private static string Printable(string text) => string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
