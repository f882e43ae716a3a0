using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab;

/// <summary>A frame's recording mode as the profile keeps it.</summary>
internal static class RecordedModeText
{
    /// <summary>The mode with a description in words.</summary>
    /// <param name="mode">What the frame says.</param>
    /// <param name="storedBits">Bits a photosite in the file, where the frame does not say.</param>
    public static RecordedMode Of(RecordingMode mode, int storedBits)
    {
        int bits = mode.BitDepth ?? storedBits;
        string?[] parts =
        [
            mode.Name,
            string.Create(CultureInfo.InvariantCulture, $"{bits} bits"),
            mode.Compression,
            mode.Shutter is null ? null : mode.Shutter + " shutter",
            mode.Drive is null ? null : mode.Drive + " drive",
            mode.NoiseReduction is null ? null : "noise reduction " + mode.NoiseReduction,
            mode.Crop is null ? null : "crop " + mode.Crop,
        ];
        return new RecordedMode
        {
            BitDepth = bits,
            Compression = mode.Compression,
            Shutter = mode.Shutter,
            Drive = mode.Drive,
            NoiseReduction = mode.NoiseReduction,
            Crop = mode.Crop,
            Description = string.Join(", ", parts.Where(p => !string.IsNullOrEmpty(p))),
        };
    }
}
