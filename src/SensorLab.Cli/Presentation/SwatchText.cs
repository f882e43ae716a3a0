using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>What a swatch is and what to do with it, in a few lines.</summary>
internal static class SwatchText
{
    /// <summary>The lines.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="iso">The ISO.</param>
    /// <param name="file">The swatch.</param>
    public static IEnumerable<string> Lines(SensorProfile profile, int iso, string file) =>
    [
        .. BodyLine.Lines(profile.Body, string.Create(CultureInfo.InvariantCulture, $"ISO {iso}")),
        $"Swatch: {file}",
        .. WrappedText.Lines("Find the darkest patch whose noise you still accept; the number below it goes to characterise PROFILE.json --snr."),
    ];
}
