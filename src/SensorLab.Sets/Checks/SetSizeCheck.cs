using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>set-too-large: more ISOs, or levels, looks or lights of one, than a sensor profile holds.</summary>
/// <remarks>The limits are the profile's schema's; a set beyond them is several sets, or its ISOs and times are no one's settings.</remarks>
internal sealed class SetSizeCheck : ISetCheck
{
    /// <summary>ISOs of a profile.</summary>
    public const int MostIsos = 64;

    /// <summary>Levels of an ISO.</summary>
    public const int MostLevels = 1000;

    /// <summary>Looks of an ISO's previews.</summary>
    public const int MostLooks = 64;

    /// <summary>Other lights.</summary>
    public const int MostLights = 64;

    public IEnumerable<Finding> Examine(CheckedSet set)
    {
        IGrouping<int, Level>[] isos = [.. set.LevelsByIso];
        (int Count, int Most, string Noun)[] counts =
        [
            (isos.Length, MostIsos, "ISOs"),
            (isos.Select(iso => iso.Count()).DefaultIfEmpty().Max(), MostLevels, "levels at one ISO"),
            (set.FramesByIso.Select(iso => iso.Select(f => f.Raw.Metadata.Look).Distinct().Count()).DefaultIfEmpty().Max(), MostLooks, "looks at one ISO"),
            (set.Frames.Select(f => f.Light).Distinct().Count(), MostLights, "lights"),
        ];
        return counts.Where(c => c.Count > c.Most).Select(c => SetFindings.Refusal(
            FindingCode.SetTooLarge,
            [],
            string.Create(CultureInfo.InvariantCulture, $"The set has {c.Count} {c.Noun}, and a sensor profile holds {c.Most} at most."),
            "Name the folder of one set; look whether frames.csv gives settings that nobody shot.") with { Size = c.Count, SizeUnit = "count" });
    }
}
