using SensorLab.Profiles;
using SensorLab.Profiles.Placement;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Pocket;

namespace SensorLab.Reports;

/// <summary>Writes the pocket sheet: what goes on location, from sensor profiles alone.</summary>
/// <remarks>The same profiles give the same bytes; of the document, on a system with the same font.</remarks>
public static class PocketWriter
{
    /// <summary>The sheet as one self-contained page that asks the network for nothing: a calculator where scripts run, tables everywhere.</summary>
    /// <param name="profiles">One profile a body; the first one is of the body in hand.</param>
    /// <returns>UTF-8 HTML.</returns>
    /// <exception cref="ArgumentException">There is no profile.</exception>
    public static byte[] Html(IReadOnlyList<SensorProfile> profiles) => PocketPage.Of(PocketSheet.Of(profiles));

    /// <summary>The sheet on paper: A5 pages, then cards of wallet size (85.6 × 54 mm) to cut out of a last one, in black alone.</summary>
    /// <param name="profiles">One profile a body; the first one is of the body in hand.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The PDF.</returns>
    /// <exception cref="ArgumentException">There is no profile.</exception>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static byte[] Pdf(IReadOnlyList<SensorProfile> profiles, CancellationToken cancellation = default) =>
        PocketPaper.Of(PocketSheet.Of(profiles), ChartFont.OfThisSystem(), cancellation);
}
