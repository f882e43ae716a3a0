using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>dark-missing: without dark frames, black level and read noise of an ISO are not measured. metered-missing: no frame defines its middle grey; by saturation, none is needed.</summary>
internal sealed class RolePresenceCheck : ISetCheck
{
    public IEnumerable<Finding> Examine(CheckedSet set) =>
    [
        .. Without(set, FrameRole.Dark, iso => Refusal(
            FindingCode.DarkMissing,
            iso,
            $"No dark frames at ISO {iso.ToString(CultureInfo.InvariantCulture)}: black level and read noise cannot be measured there.",
            "Cap the lens, cover the eyepiece, and shoot two frames or more at this ISO, into the folder dark.")),
        .. set.Grey == GreyMethod.Saturation ? [] : Without(set, FrameRole.Metered, iso => Refusal(
            FindingCode.MeteredMissing,
            iso,
            $"No metered frame at ISO {iso.ToString(CultureInfo.InvariantCulture)}: nothing says where middle grey is.",
            "Shoot the field as the spot meter reads zero, into the folder metered; or use --grey saturation.")),
    ];

    private static IEnumerable<Finding> Without(CheckedSet set, FrameRole role, Func<int, Finding> finding) =>
        set.FramesByIso.Where(iso => iso.All(f => f.Role != role)).Select(iso => finding(iso.Key));

    private static Finding Refusal(string code, int iso, string message, string remedy) => SetFindings.Refusal(code, [], message, remedy, iso);
}
