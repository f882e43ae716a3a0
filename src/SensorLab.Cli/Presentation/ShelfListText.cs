using System.Globalization;
using SensorLab.Files;
using SensorLab.Shelf;

namespace SensorLab.Cli.Presentation;

/// <summary>What is on the shelf, as text in 80 columns.</summary>
internal static class ShelfListText
{
    private const int ShortKey = 8;
    private const string Indent = "               ";

    /// <summary>The lines.</summary>
    public static IEnumerable<string> Lines(ProfileShelf shelf, IReadOnlyList<ListedBody> bodies, int? iso)
    {
        if (bodies.Count == 0)
        {
            yield return iso is { } missing
                ? string.Create(CultureInfo.InvariantCulture, $"No profile holds ISO {missing}.")
                : $"The shelf {shelf.Folder} is empty. Put a profile on it: sensorlab shelf add PROFILE.json";
            yield break;
        }

        foreach (ListedBody body in bodies)
        {
            yield return body.Body.Name;
            foreach (ShelvedProfile profile in body.Profiles)
            {
                string use = profile == body.Newest ? "  use this one" : string.Empty;
                yield return $"  {DateOf(profile),-11}  {profile.Key[..ShortKey]}  {FirmwareOf(profile)}{use}";
                foreach (string line in WrappedText.Lines($"ISO {IsoText(profile.Isos)}{(body.HasModes && profile.Mode.Length > 0 ? $"; {profile.Mode}" : string.Empty)}{WarningText(profile)}", Indent, Indent))
                {
                    yield return line;
                }

                foreach (string line in FiguresOf(body, profile))
                {
                    yield return line;
                }
            }

            foreach (string line in Missing(body.Gaps).SelectMany(gap => WrappedText.Lines(gap, "  missing: ", "           ")))
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

    // The interval that the body's own value lies in, as everywhere.
    private static IEnumerable<string> FiguresOf(ListedBody body, ShelvedProfile profile) => body.Figures is not { } figures ? [] : figures[profile.Key].SelectMany(f => WrappedText.Lines(
        string.Create(CultureInfo.InvariantCulture, $"{ShelfHistoryText.NameOf(f.Address)}, ISO {f.Address.Iso}: {ShelfHistoryText.ValueOf(f.Figure, f.Address.Name)}"),
        Indent,
        Indent + "  "));

    private static string WarningText(ShelvedProfile profile) => profile.Warnings > 0 ? $"; {ShelfIntakeText.Count(profile.Warnings, "warning")}" : string.Empty;

    private static string IsoText(IEnumerable<int> isos) => string.Join(", ", isos.Select(i => i.ToString(CultureInfo.InvariantCulture)));
}
