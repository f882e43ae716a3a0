using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>How a profile is named in a chart's heading.</summary>
internal static class ProfileText
{
    /// <summary>Body, firmware and recording mode in one line; only what the frames say.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static string Body(SensorProfile profile)
    {
        string name = ForeignText.OneLine($"{profile.Body.Maker} {profile.Body.Model}");
        var parts = new List<string> { name.Length == 0 ? "Body not named by its frames" : name };
        Add(parts, "no. ", profile.Body.SerialNumber);
        Add(parts, "firmware ", profile.Body.Firmware);
        if (profile.RecordingMode.BitDepth is { } bits)
        {
            parts.Add($"{bits} bit");
        }

        Add(parts, string.Empty, profile.RecordingMode.Compression);
        Add(parts, "shutter ", profile.RecordingMode.Shutter);
        return string.Join(" · ", parts);
    }

    private static void Add(List<string> parts, string prefix, string? text)
    {
        string line = ForeignText.OneLine(text);
        if (line.Length > 0)
        {
            parts.Add(prefix + line);
        }
    }
}
