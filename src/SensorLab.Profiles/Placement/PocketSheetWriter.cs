using System.Text.Json;
using SensorLab.Profiles.Json;

namespace SensorLab.Profiles.Placement;

/// <summary>Writes a pocket sheet's figures as JSON; figures have the sensor profile's form, absent ones are left out.</summary>
public static class PocketSheetWriter
{
    /// <summary>Writes a sheet as UTF-8 JSON, lines ended by a line feed.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="target">Where to; left open.</param>
    /// <exception cref="ArgumentException">A number is not finite, or a figure neither an estimate nor one bound.</exception>
    /// <exception cref="IOException">The stream cannot be written.</exception>
    public static void Write(PocketSheet sheet, Stream target)
    {
        if (ProfileCheck.FirstFault(sheet) is { } fault)
        {
            throw new ArgumentException($"{fault.Path} {fault.Reason}.", nameof(sheet));
        }

        target.Write([.. JsonSerializer.SerializeToUtf8Bytes(sheet, ProfileJson.PocketSheet), (byte)'\n']);
    }
}
