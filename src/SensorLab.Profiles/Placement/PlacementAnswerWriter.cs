using System.Text.Json;
using SensorLab.Profiles.Json;

namespace SensorLab.Profiles.Placement;

/// <summary>Writes placement answers as JSON; figures have the sensor profile's form, absent ones are left out.</summary>
public static class PlacementAnswerWriter
{
    /// <summary>Writes an answer as UTF-8 JSON, lines ended by a line feed.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="target">Where to; left open.</param>
    /// <exception cref="ArgumentException">A number is not finite, or a figure neither an estimate nor one bound.</exception>
    /// <exception cref="IOException">The stream cannot be written.</exception>
    public static void Write(PlacementAnswer answer, Stream target)
    {
        if (ProfileCheck.FirstFault(answer) is { } fault)
        {
            throw new ArgumentException($"{fault.Path} {fault.Reason}.", nameof(answer));
        }

        target.Write([.. JsonSerializer.SerializeToUtf8Bytes(answer, ProfileJson.PlacementAnswer), (byte)'\n']);
    }
}
