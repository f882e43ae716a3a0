using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Debriefs;

/// <summary>Findings about the frames of a job.</summary>
internal static class JobFindings
{
    /// <summary>One finding a reason, with all of its frames, the worst first.</summary>
    /// <param name="findings">What was found, frame by frame.</param>
    /// <param name="frames">Raw files in all.</param>
    public static IReadOnlyList<Finding> Merged(IEnumerable<Finding> findings, int frames) => FindingOrder.WorstFirst(
        findings
            .GroupBy(f => (f.Code, f.Severity, f.Iso, f.Message, f.Remedy))
            .Select(same => (same.First(), Files: same.SelectMany(f => f.Frames).Distinct().Order(StringComparer.Ordinal).ToArray()))
            .Select(g => g.Files.Length < 2 ? g.Item1 : g.Item1 with
            {
                Frames = g.Files,
                Size = g.Files.Length,
                SizeUnit = "count",
                Message = string.Create(CultureInfo.InvariantCulture, $"{g.Files.Length} of {frames} files: {g.Item1.Message}"),
            })
            .OrderBy(f => f.Code, StringComparer.Ordinal).ThenBy(f => f.Iso).ThenBy(f => f.Message, StringComparer.Ordinal));

    /// <summary>A folder without any raw file.</summary>
    public static Finding None(string folder) => new()
    {
        Code = FindingCode.FramesNone,
        Severity = FindingSeverity.Refusal,
        Message = $"{folder} holds no raw file.",
        Remedy = "Name the folder that the card was copied to.",
    };

    /// <summary>A frame of another firmware than the profile's.</summary>
    public static Finding OtherFirmware(SensorProfile profile, string file, RawFrame frame) => new()
    {
        Code = FindingCode.FirmwareMixed,
        Severity = FindingSeverity.Warning,
        Frames = [file],
        Message = $"Shot with firmware {frame.Metadata.Firmware}, and the profile is of firmware {profile.Body.Firmware}: it may not describe the body any more.",
        Remedy = "sensorlab confirm tells whether it does; a set shot anew settles it.",
    };
}
