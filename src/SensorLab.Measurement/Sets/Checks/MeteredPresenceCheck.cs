using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Sets.Checks;

/// <summary>metered-missing: no frame defines middle grey at an ISO. By saturation, none is needed.</summary>
internal sealed class MeteredPresenceCheck : ISetCheck
{
    public IEnumerable<Finding> Examine(CheckedSet set) => set.Grey == GreyMethod.Saturation
        ? []
        : set.FramesByIso.Where(iso => iso.All(f => f.Role != FrameRole.Metered)).Select(iso => SetFindings.Refusal(
            FindingCode.MeteredMissing,
            [],
            $"No metered frame at ISO {iso.Key.ToString(CultureInfo.InvariantCulture)}: nothing says where middle grey is.",
            "Shoot the field as the spot meter reads zero, into the folder metered; or use --grey saturation.",
            iso.Key));
}
