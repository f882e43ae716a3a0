using System.Globalization;
using SensorLab.Files;
using SensorLab.Shelf;

namespace SensorLab.Cli.Presentation;

/// <summary>What is on the shelf, as text in 80 columns.</summary>
internal static class ShelfListText
{
    private const int ShortKey = 8;

    /// <summary>The lines.</summary>
    public static IEnumerable<string> Lines(ProfileShelf shelf, IReadOnlyList<(ShelfBody Body, IReadOnlyList<ShelvedProfile> Profiles, BodyGaps Gaps)> bodies, int? iso)
    {
        if (bodies.Count == 0)
        {
            yield return iso is { } missing
                ? string.Create(CultureInfo.InvariantCulture, $"No profile holds ISO {missing}.")
                : $"The shelf {shelf.Folder} is empty. Put a profile on it: sensorlab shelf add PROFILE.json";
            yield break;
        }

        foreach ((ShelfBody body, IReadOnlyList<ShelvedProfile> profiles, BodyGaps gaps) in bodies)
        {
            yield return body.Name;
            bool hasModes = profiles.Select(p => p.Mode).Distinct().Count() > 1;
            foreach (ShelvedProfile profile in profiles.Where(p => iso is null || p.Isos.Contains(iso.Value)))
            {
                string use = profile == profiles[^1] ? "  use this one" : string.Empty;
                yield return $"  {DateOf(profile),-11}  {profile.Key[..ShortKey]}  {FirmwareOf(profile)}{use}";
                foreach (string line in WrappedText.Lines($"ISO {IsoText(profile.Isos)}{(hasModes && profile.Mode.Length > 0 ? $"; {profile.Mode}" : string.Empty)}{WarningText(profile)}", "               ", "               "))
                {
                    yield return line;
                }
            }

            foreach (string line in Missing(gaps).SelectMany(gap => WrappedText.Lines(gap, "  missing: ", "           ")))
            {
                yield return line;
            }

            yield return string.Empty;
        }

        yield return $"Shelf: {shelf.Folder}";
    }

    /// <summary>What a body lacks, in sentences.</summary>
    public static IEnumerable<string> Missing(BodyGaps gaps)
    {
        if (gaps.IsosOfEarlier.Count > 0)
        {
            yield return $"ISO {IsoText(gaps.IsosOfEarlier)} in the newest profile, which an earlier one holds.";
        }

        if (gaps.IsosOfModel.Count > 0)
        {
            yield return $"ISO {IsoText(gaps.IsosOfModel)}, which other bodies of the model were measured at.";
        }

        if (gaps.FirmwaresOfModel.Count > 0)
        {
            yield return $"firmware {string.Join(", ", gaps.FirmwaresOfModel.Select(ForeignText.OneLine))}, which other bodies of the model were measured with.";
        }
    }

    /// <summary>The day of a profile's last frame.</summary>
    public static string DateOf(ShelvedProfile profile) => profile.CreatedUtc?.UtcDateTime.ToString("d MMM yyyy", CultureInfo.InvariantCulture) ?? "no time";

    /// <summary>A profile's firmware, in words.</summary>
    public static string FirmwareOf(ShelvedProfile profile) => ForeignText.OneLine(profile.Firmware) is { Length: > 0 } firmware ? $"firmware {firmware}" : "firmware unknown";

    private static string WarningText(ShelvedProfile profile) => profile.Warnings > 0 ? $"; {ShelfIntakeText.Count(profile.Warnings, "warning")}" : string.Empty;

    private static string IsoText(IEnumerable<int> isos) => string.Join(", ", isos.Select(i => i.ToString(CultureInfo.InvariantCulture)));
}
