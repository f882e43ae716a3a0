using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>Recording modes and settings, compared before any figure is: updates reset menus.</summary>
internal static class SettingsComparison
{
    /// <summary>Degrees Celsius within which temperatures count as alike.</summary>
    private const double AlikeCelsius = 3;

    /// <summary>How the recording modes differ, one sentence each; empty where they do not, as far as the frames say.</summary>
    public static IReadOnlyList<string> ModeDifferences(SensorProfile before, SensorProfile after)
    {
        RecordedMode b = before.RecordingMode;
        RecordedMode a = after.RecordingMode;
        string[] named =
        [
            .. Differing("bits", Number(b.BitDepth), Number(a.BitDepth)),
            .. Differing("compression", b.Compression, a.Compression),
            .. Differing("shutter", b.Shutter, a.Shutter),
            .. Differing("drive", b.Drive, a.Drive),
            .. Differing("noise reduction", b.NoiseReduction, a.NoiseReduction),
            .. Differing("crop", b.Crop, a.Crop),
        ];
        return named.Length > 0 ? named : [.. Differing("description", b.Description, a.Description)];
    }

    /// <summary>What the frames of one set or both do not say of the recording mode.</summary>
    public static IReadOnlyList<string> ModeUnknown(SensorProfile before, SensorProfile after)
    {
        RecordedMode b = before.RecordingMode;
        RecordedMode a = after.RecordingMode;
        (string Name, bool IsKnown)[] parts =
        [
            ("shutter type", b.Shutter is not null && a.Shutter is not null),
            ("drive", b.Drive is not null && a.Drive is not null),
            ("noise reduction", b.NoiseReduction is not null && a.NoiseReduction is not null),
            ("crop", b.Crop is not null && a.Crop is not null),
        ];
        return [.. parts.Where(p => !p.IsKnown).Select(p => p.Name)];
    }

    /// <summary>What else differs between the sets, one sentence each.</summary>
    public static IReadOnlyList<string> ConditionDifferences(SensorProfile before, SensorProfile after)
    {
        ShootingConditions b = before.Conditions;
        ShootingConditions a = after.Conditions;
        bool isWarmer = b.TemperatureCelsius is { } from && a.TemperatureCelsius is { } to && Math.Abs(from - to) > AlikeCelsius;
        return
        [
            .. Differing("lens", b.Lens, a.Lens),
            .. Differing("aperture", Number(b.ApertureFNumber), Number(a.ApertureFNumber)),
            .. Differing("light", b.Light, a.Light),
            .. isWarmer ? Differing("temperature", Celsius(b.TemperatureCelsius), Celsius(a.TemperatureCelsius)) : [],
            .. Differing("region measured", Region(b.Region), Region(a.Region)),
            .. Differing("protocol", b.Protocol, a.Protocol),
            .. Differing("meter's step", Step(before.MiddleGrey.MeterStepEv), Step(after.MiddleGrey.MeterStepEv)),
        ];
    }

    private static IEnumerable<string> Differing(string name, string? before, string? after) =>
        before is not null && after is not null && before != after ? [$"{name} {before} before, {after} after"] : [];

    private static string? Number(double? number) => number?.ToString(CultureInfo.InvariantCulture);

    private static string? Celsius(double? number) => number is { } degrees ? string.Create(CultureInfo.InvariantCulture, $"{degrees:0.#} °C") : null;

    private static string? Step(double? number) => number is { } step ? string.Create(CultureInfo.InvariantCulture, $"{step:0.00} EV") : null;

    private static string? Region(MeasuredRegion? region) =>
        region is { } r ? string.Create(CultureInfo.InvariantCulture, $"{r.Width}x{r.Height} at {r.X},{r.Y}") : null;
}
