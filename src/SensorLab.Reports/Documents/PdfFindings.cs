using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Reports.Documents;

/// <summary>Findings on paper, as many as the pages have room for.</summary>
/// <param name="flow">The pages.</param>
/// <param name="lastPage">The last page that may be filled.</param>
internal sealed class PdfFindings(PageFlow flow, int lastPage)
{
    private const float TextSize = 9;
    private const float SmallSize = 7.5f;

    /// <summary>What an entry needs of its page to begin on it.</summary>
    private const float FindingRoom = 30;

    // What an entry may take, and the last line of the document.
    private const float MostFindingRoom = 130;

    // The profile and tables/findings.csv have them all.
    private const int MostFramesNamed = 6;

    /// <summary>Draws them.</summary>
    /// <param name="groups">The findings, the worst first.</param>
    public void Draw(IReadOnlyList<FindingGroup> groups)
    {
        if (groups.Count == 0)
        {
            flow.Paragraph("There are none.", TextSize);
        }

        foreach ((int index, FindingGroup group) in groups.Index())
        {
            if (flow.Count >= lastPage && flow.Room < MostFindingRoom)
            {
                flow.Paragraph($"And {(groups.Count - index).ToString(CultureInfo.InvariantCulture)} findings more: report.html and tables/findings.csv have them all.", TextSize);
                return;
            }

            bool isShort = group.IsCompensated || group.Severity == FindingSeverity.Note;
            flow.Require(isShort ? FindingRoom / 2 : FindingRoom);
            flow.Paragraph(isShort ? FindingWords.Short(group) : group.Heading, TextSize, bold: !isShort);
            if (!isShort)
            {
                flow.Paragraph(FindingWords.Message(group), TextSize, indent: 11);
                flow.Paragraph(group.Effect, TextSize, indent: 11);
                flow.Paragraph("Remedy: " + group.Remedy, TextSize, indent: 11);
            }
            else if (group.IsCompensated)
            {
                flow.Paragraph("Compensated.", TextSize, indent: 11);
            }

            if (!isShort && FindingWords.Frames(group, MostFramesNamed) is { Length: > 0 } frames)
            {
                flow.Paragraph(frames, SmallSize, quiet: true, indent: 11);
            }

            flow.Y += isShort ? 2 : 5;
        }
    }
}
