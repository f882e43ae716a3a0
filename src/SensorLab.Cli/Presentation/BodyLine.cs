using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>A body and how it recorded, as the heading of a table.</summary>
internal static class BodyLine
{
    private const string Firmware = "firmware";

    /// <summary>The lines of the heading.</summary>
    /// <param name="body">The body.</param>
    /// <param name="more">What else there is to say; empty and null are left out.</param>
    public static IEnumerable<string> Lines(BodyIdentity body, params string?[] more)
    {
        string name = string.Join(' ', new[] { body.Maker, body.Model }.OfType<string>());
        string?[] parts =
        [
            name.Length > 0 ? name : "Unnamed body",
            body.SerialNumber is null ? null : $"serial number {body.SerialNumber}",
            body.Firmware is null ? null : WithWord(body.Firmware),
            .. more,
        ];
        return WrappedText.Lines(PlacementText.Printable(string.Join(", ", parts.Where(p => !string.IsNullOrEmpty(p)))));
    }

    // Some makers write the word into the value.
    private static string WithWord(string firmware) =>
        firmware.StartsWith(Firmware, StringComparison.OrdinalIgnoreCase) ? firmware : $"{Firmware} {firmware}";
}
