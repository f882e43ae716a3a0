using System.Globalization;
using SensorLab.Imaging;
using SensorLab.Profiles;

namespace SensorLab;

/// <summary>Findings about previews that could not be compared.</summary>
internal static class PreviewTroubles
{
    private const string Remedy = "Let the camera record raw with a JPEG picture, or keep its JPEG beside the raw file under the same name, if you want to know what its preview hides.";

    /// <summary>What is to be said of a set.</summary>
    /// <param name="isos">Its ISOs.</param>
    /// <param name="shown">ISOs at which previews were measured.</param>
    /// <param name="isLibraryMissing">Whether pictures cannot be decoded here.</param>
    /// <param name="troubles">By frame, its ISO and why its preview was not measured.</param>
    public static IReadOnlyList<Finding> Findings(IEnumerable<int> isos, IReadOnlySet<int> shown, bool isLibraryMissing, IReadOnlyDictionary<string, (int Iso, string Why)> troubles)
    {
        int[] all = [.. isos.Order()];
        if (isLibraryMissing)
        {
            return [Missing(null, [], "No library that decodes JPEG pictures can be loaded here, so no preview was compared.", ImagingLibraryMissingException.InstallRemedy)];
        }

        List<Finding> findings = [];
        if (troubles.Count > 0)
        {
            string[] frames = [.. troubles.Keys.Order(StringComparer.Ordinal)];
            findings.Add(Missing(
                null,
                frames,
                frames.Length == 1 ? $"The preview of {frames[0]} cannot be used: {troubles[frames[0]].Why}"
                    : string.Create(CultureInfo.InvariantCulture, $"The previews of {frames.Length} frames cannot be used. Of {frames[0]}: {troubles[frames[0]].Why}"),
                "Copy the files from the card again if they are damaged; the raw frames themselves are measured."));
        }

        int[] without = [.. all.Where(iso => !shown.Contains(iso) && !troubles.Values.Any(t => t.Iso == iso))];
        if (without.Length == all.Length)
        {
            findings.Add(Missing(null, [], "The frames hold no previews, and none lie beside them: what the camera's picture hides of the raw file is not known.", Remedy));
        }
        else
        {
            findings.AddRange(without.Select(iso => Missing(
                iso, [], string.Create(CultureInfo.InvariantCulture, $"The frames at ISO {iso} hold no previews, and none lie beside them."), Remedy)));
        }

        return findings;
    }

    private static Finding Missing(int? iso, IReadOnlyList<string> frames, string message, string remedy) => new()
    {
        Code = FindingCode.PreviewMissing,
        Severity = FindingSeverity.Note,
        Iso = iso,
        Frames = frames,
        Message = message,
        Remedy = remedy,
    };
}
