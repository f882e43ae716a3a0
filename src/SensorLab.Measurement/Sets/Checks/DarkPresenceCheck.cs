using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Sets.Checks;

/// <summary>dark-missing: without dark frames, black level and read noise of an ISO are not measured.</summary>
internal sealed class DarkPresenceCheck : ISetCheck
{
    public IEnumerable<Finding> Examine(CheckedSet set) =>
        set.FramesByIso.Where(iso => iso.All(f => f.Role != FrameRole.Dark)).Select(iso => SetFindings.Refusal(
            FindingCode.DarkMissing,
            [],
            $"No dark frames at ISO {iso.Key.ToString(CultureInfo.InvariantCulture)}: black level and read noise cannot be measured there.",
            "Cap the lens, cover the eyepiece, and shoot two frames or more at this ISO, into the folder dark.",
            iso.Key));
}
