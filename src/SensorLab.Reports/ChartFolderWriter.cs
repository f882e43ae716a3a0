using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Drawing;

namespace SensorLab.Reports;

/// <summary>Writes a sensor profile's charts as SVG and PNG, for a light and for a dark page.</summary>
/// <remarks>
/// <c>latitude-ruler</c>, and an ISO <c>snr-iso-400</c> and <c>photon-transfer-iso-400</c>; those for dark pages end in
/// <c>-dark</c>. The same profile gives the same bytes on a system with the same font.
/// </remarks>
public static class ChartFolderWriter
{
    /// <summary>Writes all charts, or none: every chart is drawn before the first file of the folder is touched.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="folder">The folder; made where missing, charts of the same name replaced, other files left alone.</param>
    /// <param name="cancellation">Stops the work; nothing half-written is left.</param>
    /// <returns>The files' names in the folder, in the order in which a reader wants them.</returns>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    /// <exception cref="IOException">The folder cannot be made, or a file not written.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be written to.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static IReadOnlyList<string> Write(SensorProfile profile, string folder, CancellationToken cancellation = default)
    {
        var font = ChartFont.OfThisSystem();
        var files = new List<(string Name, byte[] Bytes)>();
        foreach ((string name, ChartDrawing drawing) in Drawings(profile, font))
        {
            foreach (ChartTheme theme in ChartTheme.All)
            {
                cancellation.ThrowIfCancellationRequested();
                files.Add(($"{name}{theme.Suffix}.svg", ChartImage.Svg(drawing, theme, name + theme.Suffix)));
                files.Add(($"{name}{theme.Suffix}.png", ChartImage.Png(drawing, theme)));
            }
        }

        WholeFolder.Write(folder, files, cancellation);
        return [.. files.Select(file => file.Name)];
    }

    private static IEnumerable<(string Name, ChartDrawing Drawing)> Drawings(SensorProfile profile, ChartFont font)
    {
        yield return ("latitude-ruler", new LatitudeRulerDrawing(LatitudeRulerModel.From(profile), font));
        foreach (IsoProfile iso in profile.IsoProfiles.OrderBy(iso => iso.Iso))
        {
            string suffix = string.Create(CultureInfo.InvariantCulture, $"iso-{iso.Iso}");
            yield return ($"snr-{suffix}", new SnrChartDrawing(SnrChartModel.From(profile, iso), font));
            yield return ($"photon-transfer-{suffix}", new PhotonTransferDrawing(PhotonTransferModel.From(profile, iso), font));
        }
    }
}
