using System.Globalization;
using SensorLab.Files;

namespace SensorLab.Profiles.Json;

/// <summary>What makes a document a sensor profile of a version that this library reads.</summary>
internal static class ProfileFormat
{
    /// <summary>The major version that this library reads and writes.</summary>
    public const int Major = 1;

    /// <summary>What is wrong with a document's format and version; null where nothing is.</summary>
    public static DocumentFault? Fault(string? format, string? version)
    {
        if (format != SensorProfile.FormatName)
        {
            return new DocumentFault("format", $"is not \"{SensorProfile.FormatName}\"");
        }

        return MajorOf(version) switch
        {
            null => new DocumentFault("formatVersion", "is not a version of the form 1.0"),
            not Major => new DocumentFault("formatVersion", $"is {version}, and this program reads version {Major}"),
            _ => null,
        };
    }

    /// <summary>The major number of a version "major.minor"; null for anything else.</summary>
    public static int? MajorOf(string? version)
    {
        string[] parts = version?.Split('.') ?? [];
        return parts.Length == 2
            && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out int major)
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out _)
            ? major
            : null;
    }
}
