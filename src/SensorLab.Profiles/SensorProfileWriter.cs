using System.Text.Json;
using SensorLab.Files;
using SensorLab.Profiles.Json;

namespace SensorLab.Profiles;

/// <summary>Writes sensor profiles: the same profile gives the same bytes, on any machine.</summary>
public static class SensorProfileWriter
{
    /// <summary>Writes a profile as UTF-8 JSON without a byte order mark, lines ended by a line feed.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="target">Where to; left open. Nothing is written to it where the profile is at fault.</param>
    /// <exception cref="ArgumentException">
    /// A number is not finite, a figure is neither an estimate nor one bound, or something that a profile must have is
    /// null; the message names the property's path.
    /// </exception>
    /// <exception cref="ProfileFormatException">A value lies beyond the range or the count that the schema states: no reader would take it.</exception>
    /// <exception cref="IOException">The stream cannot be written.</exception>
    public static void Write(SensorProfile profile, Stream target) => target.Write(Serialize(profile));

    /// <summary>Writes a profile to a file, whole or not at all: an existing file stays as it is until the new one is whole.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="path">The file.</param>
    /// <param name="cancellation">Cancels before the file is put in place.</param>
    /// <exception cref="ArgumentException">As from <see cref="Write"/>.</exception>
    /// <exception cref="ProfileFormatException">As from <see cref="Write"/>.</exception>
    /// <exception cref="IOException">The file cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">The path is a folder, or may not be written.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; nothing half-written is left.</exception>
    public static void WriteFile(SensorProfile profile, string path, CancellationToken cancellation = default)
    {
        byte[] document = Serialize(profile);
        WholeFile.Write(path, stream => stream.Write(document), cancellation);
    }

    private static byte[] Serialize(SensorProfile profile)
    {
        if (ProfileCheck.FirstFault(profile) is { } fault)
        {
            throw new ArgumentException($"{fault.Path} {fault.Reason}.", nameof(profile));
        }

        byte[] document = [.. JsonSerializer.SerializeToUtf8Bytes(profile, ProfileJson.SensorProfile), (byte)'\n'];
        try
        {
            SensorProfileSchema.Domains.Require(document);
            return document;
        }
        catch (DocumentException e)
        {
            throw new ProfileFormatException($"The profile would hold what none can, and nobody could read it. {e.Message}", "Look for damaged frames or odd entries in frames.csv, or begin from another profile.", e);
        }
    }
}
