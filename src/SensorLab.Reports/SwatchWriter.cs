using SensorLab.Profiles;
using SensorLab.Profiles.Placement;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Swatches;

namespace SensorLab.Reports;

/// <summary>Writes a swatch: even tones from two stops above middle grey down with a body's own noise, each marked with its SNR, to choose the criterion by eye.</summary>
/// <remarks>The same profile gives the same bytes; of the document, on a system with the same font.</remarks>
public static class SwatchWriter
{
    /// <summary>The swatch as one self-contained page: a pixel of the picture is a pixel of the screen.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="iso">The ISO.</param>
    /// <param name="delivery">The size at which pictures are looked at; null for the profile's own, or else the sensor's pixels.</param>
    /// <returns>UTF-8 HTML.</returns>
    /// <exception cref="IsoUnmeasuredException">The ISO was not measured; its neighbours are named.</exception>
    /// <exception cref="SwatchRefusedException">Its noise was not measured.</exception>
    public static byte[] Html(SensorProfile profile, int iso, Delivery? delivery = null) => SwatchPage.Of(SwatchModel.From(profile, iso, delivery));

    /// <summary>The swatch on A4 paper, a pixel of the picture 1/300 inch.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="iso">The ISO.</param>
    /// <param name="delivery">The size at which pictures are looked at; null for the profile's own, or else the sensor's pixels.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The PDF.</returns>
    /// <exception cref="IsoUnmeasuredException">The ISO was not measured; its neighbours are named.</exception>
    /// <exception cref="SwatchRefusedException">Its noise was not measured.</exception>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static byte[] Pdf(SensorProfile profile, int iso, Delivery? delivery = null, CancellationToken cancellation = default) =>
        SwatchPaper.Of(SwatchModel.From(profile, iso, delivery), ChartFont.OfThisSystem(), cancellation);
}
