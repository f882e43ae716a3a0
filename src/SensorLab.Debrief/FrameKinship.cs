using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;

namespace SensorLab.Debrief;

/// <summary>Whether a profile can speak for a frame: the same body, sensor and recording mode, at an ISO that was measured.</summary>
/// <remarks>What a frame or the profile does not say is no evidence of a difference. Lossless and uncompressed data are the same.</remarks>
public static class FrameKinship
{
    /// <summary>Why the profile cannot speak for a frame.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="file">The frame's path inside the folder.</param>
    /// <param name="frame">The frame.</param>
    /// <returns>The reason, in the catalogue's codes; null where it can.</returns>
    public static Finding? Stranger(SensorProfile profile, string file, RawFrame frame) =>
        OtherBody(profile, file, frame) ?? OtherSensor(profile, file, frame) ?? OtherMode(profile, file, frame) ?? OtherIso(profile, file, frame);

    /// <summary>Whether a frame names another firmware than the profile's: the profile may no longer describe the body.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="frame">The frame.</param>
    public static bool IsOtherFirmware(SensorProfile profile, RawFrame frame) =>
        !frame.Metadata.FirmwareIsConverter && Differ(profile.Body.Firmware, frame.Metadata.Firmware);

    /// <summary>How a frame's recording mode differs from the profile's.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="frame">The frame.</param>
    /// <returns>A phrase a part, as "12 bits in place of 14"; empty where it does not, as far as both say.</returns>
    public static IReadOnlyList<string> ModeDifferences(SensorProfile profile, RawFrame frame)
    {
        RecordedMode known = profile.RecordingMode;
        RecordingMode mode = frame.Metadata.Mode;
        List<string> ways = [];
        int own = mode.BitDepth ?? frame.Layout.BitDepth;
        if (known.BitDepth is { } bits && bits != own)
        {
            ways.Add(string.Create(CultureInfo.InvariantCulture, $"{own} bits in place of {bits}"));
        }

        if (known.Compression is not null && mode.Compression is not null && (known.Compression == Lossy) != (mode.Compression == Lossy))
        {
            ways.Add($"{mode.Compression} in place of {known.Compression}");
        }

        Add("shutter", known.Shutter, mode.Shutter);
        Add("drive", known.Drive, mode.Drive);
        Add("crop", known.Crop, mode.Crop);
        return ways;

        void Add(string name, string? expected, string? found)
        {
            if (Differ(expected, found))
            {
                ways.Add($"{name} {found} in place of {expected}");
            }
        }
    }

    private const string Lossy = "lossy";

    private static Finding? OtherBody(SensorProfile profile, string file, RawFrame frame)
    {
        FrameMetadata own = frame.Metadata;
        string? other = Differ(profile.Body.Maker, own.Maker) || Differ(profile.Body.Model, own.Model)
            ? string.Join(' ', new[] { own.Maker, own.Model }.OfType<string>())
            : Differ(profile.Body.SerialNumber, own.SerialNumber) ? $"serial number {own.SerialNumber}" : null;
        return other is null ? null : Of(FindingCode.BodyMixed, file, $"Shot with another body ({other}), of which the profile says nothing. Left out.", "Name that body's own profile, and a folder with its frames.");
    }

    private static Finding? OtherSensor(SensorProfile profile, string file, RawFrame frame)
    {
        PixelRectangle active = frame.Layout.ActiveArea;
        bool isSame = profile.Sensor.WidthPixels == active.Width && profile.Sensor.HeightPixels == active.Height
            && profile.Sensor.ColourFilterArray == frame.Layout.ColourFilterArray.Name;
        return isSame ? null : Of(
            FindingCode.FrameSizeDiffers,
            file,
            string.Create(CultureInfo.InvariantCulture, $"{active.Width}x{active.Height} photosites ({frame.Layout.ColourFilterArray}) where the profile has {profile.Sensor.WidthPixels}x{profile.Sensor.HeightPixels} ({profile.Sensor.ColourFilterArray}): another crop or raw size is another mode. Left out."),
            "Shoot in the mode that was measured, or measure this one.");
    }

    private static Finding? OtherMode(SensorProfile profile, string file, RawFrame frame) => ModeDifferences(profile, frame) is { Count: > 0 } ways
        ? Of(FindingCode.ModeMixed, file, $"Recorded in another mode than the profile's: {string.Join("; ", ways)}. Left out.", "Shoot in the mode that was measured, or measure this one.")
        : null;

    private static Finding? OtherIso(SensorProfile profile, string file, RawFrame frame)
    {
        if (frame.Metadata.Iso is not { } iso)
        {
            return Of(FindingCode.FrameIncomplete, file, "The file does not say its ISO. Left out.", "Nothing: without its ISO no profile can speak for it.");
        }

        return profile.IsoProfiles.Any(p => p.Iso == iso) ? null : Of(
            IsoUnmeasuredException.Code,
            file,
            string.Create(CultureInfo.InvariantCulture, $"ISO {iso} is not in the profile, and nothing is interpolated. Left out."),
            string.Create(CultureInfo.InvariantCulture, $"Measure ISO {iso}, or keep to ISO {string.Join(", ", profile.IsoProfiles.Select(p => p.Iso))}.")) with { Iso = iso };
    }

    private static Finding Of(string code, string file, string message, string remedy) =>
        new() { Code = code, Severity = FindingSeverity.Warning, Frames = [file], Message = message, Remedy = remedy };

    private static bool Differ(string? first, string? second) => first is not null && second is not null && first != second;
}
