using System.Globalization;
using System.Text;
using SensorLab.Files;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>The text of a rehearsal's frames.csv.</summary>
internal static class FrameTable
{
    /// <summary>Rows for the frames of which the files do not say everything.</summary>
    /// <returns>The text, or null where no frame needs a row.</returns>
    public static string? Of(IReadOnlyList<PlannedFrame> frames)
    {
        PlannedFrame[] listed = [.. frames.Where(frame => frame.Columns.Count > 0)];
        if (listed.Length == 0)
        {
            return null;
        }

        string[] columns = [.. listed.SelectMany(frame => frame.Columns.Keys).Distinct().Order(StringComparer.Ordinal)];
        var text = new StringBuilder();
        text.Append("file,").AppendJoin(',', columns).Append('\n');
        foreach (PlannedFrame frame in listed)
        {
            text.Append(Quoted(frame.File)).Append(',');
            text.AppendJoin(',', columns.Select(column => Quoted(frame.Columns.GetValueOrDefault(column, string.Empty)))).Append('\n');
        }

        return text.ToString();
    }

    // Looks and lights are named by a body's file, which may be anyone's; a number begins with a sign and is no formula.
    private static string Quoted(string value) =>
        double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out _) ? value : ForeignText.CsvField(value);
}
