using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>firmware-mixed: an update may change what a sensor gives. firmware-unknown: a converter wrote its own name where the body's firmware should be.</summary>
internal sealed class FirmwareCheck : ISetCheck
{
    public IEnumerable<Finding> Examine(CheckedSet set)
    {
        if (Disagreement.Find(set.Frames, FirmwareOf) is { } found)
        {
            yield return SetFindings.Refusal(
                FindingCode.FirmwareMixed,
                found.Odd,
                $"The frames were shot with more than one firmware: {found.Listed}.",
                "Make one set of the frames shot before the update and one of those shot after it.");
        }

        SetFrame[] converted = [.. set.Frames.Where(f => f.Raw.Metadata.FirmwareIsConverter)];
        if (converted.Length > 0)
        {
            string names = string.Join(", ", converted.Select(f => f.Raw.Metadata.Firmware).OfType<string>().Distinct().Order(StringComparer.Ordinal));
            yield return SetFindings.Note(
                FindingCode.FirmwareUnknown,
                converted,
                $"{SetFindings.Count(converted.Length)} went through a converter ({names}), which left its name where the body's firmware should be.",
                "Write the firmware down from the camera's menu, or characterise from the camera's own raw files.");
        }
    }

    private static string? FirmwareOf(SetFrame frame) =>
        frame.Raw.Metadata.FirmwareIsConverter ? null : frame.Raw.Metadata.Firmware;
}
