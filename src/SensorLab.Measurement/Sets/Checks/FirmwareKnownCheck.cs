using SensorLab.Profiles;

namespace SensorLab.Measurement.Sets.Checks;

/// <summary>firmware-unknown: a converter wrote its own name where the body's firmware should be.</summary>
internal sealed class FirmwareKnownCheck : ISetCheck
{
    public IEnumerable<Finding> Examine(CheckedSet set)
    {
        SetFrame[] converted = [.. set.Frames.Where(f => f.Raw.Metadata.FirmwareIsConverter)];
        if (converted.Length == 0)
        {
            yield break;
        }

        string names = string.Join(", ", converted.Select(f => f.Raw.Metadata.Firmware).OfType<string>().Distinct().Order(StringComparer.Ordinal));
        yield return SetFindings.Note(
            FindingCode.FirmwareUnknown,
            converted,
            $"{SetFindings.Count(converted.Length)} went through a converter ({names}), which left its name where the body's firmware should be.",
            "Write the firmware down from the camera's menu, or characterise from the camera's own raw files.");
    }
}
