using SensorLab.Profiles;

namespace SensorLab.Measurement.Sets.Checks;

/// <summary>firmware-mixed: an update may change what a sensor gives. A converter's name is no firmware.</summary>
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
    }

    private static string? FirmwareOf(SetFrame frame) =>
        frame.Raw.Metadata.FirmwareIsConverter ? null : frame.Raw.Metadata.Firmware;
}
