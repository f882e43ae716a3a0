using System.Globalization;
using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab.Reports.Documents;

/// <summary>What a profile says of its body, its circumstances and its making, in words; only what is there.</summary>
internal static class ProfileFacts
{
    // Longer names would push the answer off the first screen; the whole name stands under provenance.
    private const int LongestName = 80;
    private const int LongestWord = 120;

    /// <summary>The body's name.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static string Name(SensorProfile profile) =>
        Clipped($"{profile.Body.Maker} {profile.Body.Model}", LongestName) is { Length: > 0 } name ? name : "Body not named by its frames";

    /// <summary>Which body, with which firmware, in which recording mode.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static string Identity(SensorProfile profile) => Joined(
        Part("no. ", profile.Body.SerialNumber),
        profile.Body.Firmware is null ? "firmware not stated" : Part("firmware ", profile.Body.Firmware),
        profile.RecordingMode.BitDepth is { } bits ? string.Create(CultureInfo.InvariantCulture, $"{bits} bits") : string.Empty,
        Part(string.Empty, profile.RecordingMode.Compression),
        Part("shutter ", profile.RecordingMode.Shutter),
        Part("drive ", profile.RecordingMode.Drive),
        Part("noise reduction ", profile.RecordingMode.NoiseReduction),
        Part("crop ", profile.RecordingMode.Crop));

    /// <summary>When, and under what conditions.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static string Circumstances(SensorProfile profile) => Joined(
        Date(profile),
        Part(string.Empty, profile.Conditions.Light),
        Part(string.Empty, profile.Conditions.Lens),
        profile.Conditions.ApertureFNumber is { } f ? string.Create(CultureInfo.InvariantCulture, $"f/{f:0.0}") : string.Empty,
        profile.Conditions.TemperatureCelsius is { } t ? string.Create(CultureInfo.InvariantCulture, $"{t:0.#} °C") : string.Empty,
        Part("protocol ", profile.Conditions.Protocol));

    /// <summary>What the figures leave out.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static string Limits(SensorProfile profile)
    {
        if (profile.IsoProfiles.Any(i => i.Latitude.AboveEv?.Budget is not null || i.Latitude.BelowEv.Any(e => e.PerPixel?.Budget is not null)))
        {
            return "± is half the 95 % interval (JCGM 100, clause 6.2) that a set of this body shot anew would respect, rounded up: the sensor's noise, the meter, shutter, lamp, diaphragm and temperature, each with its size below. Flare of lens and scene comes on top.";
        }

        string meter = profile.MiddleGrey switch
        {
            { MeterStandardUncertaintyEv: { } u } => string.Create(CultureInfo.InvariantCulture, $"On location the meter adds its own ±{Figure.NormalFactor95 * u:0.00} EV (95 %) to each end."),
            { Method: GreyMethodName.Saturation } => "Middle grey is ISO 12232's saturation-based speed, not a meter's.",
            _ => "The meter's own uncertainty is not stated.",
        };
        return $"± is half the 95 % interval (JCGM 100, clause 6.2), rounded up. It is the sensor's noise in this set alone: flare of lens and scene comes on top. {meter}";
    }

    /// <summary>What the profile rests on.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static IReadOnlyList<(string Name, string Fact)> Provenance(SensorProfile profile)
    {
        MeasuredRegion? region = profile.Conditions.Region;
        int used = profile.Frames.Count(f => f.Used);
        (string Name, string Fact)[] facts =
        [
            ("Body", ForeignText.OneLine($"{profile.Body.Maker} {profile.Body.Model}")),
            ("Serial number", ForeignText.OneLine(profile.Body.SerialNumber)),
            ("Firmware", ForeignText.OneLine(profile.Body.Firmware)),
            ("Recording mode", ForeignText.OneLine(profile.RecordingMode.Description)),
            ("Sensor", string.Create(CultureInfo.InvariantCulture, $"{profile.Sensor.WidthPixels} × {profile.Sensor.HeightPixels} photosites, {ForeignText.OneLine(profile.Sensor.FiltersInWords())}")),
            ("Region measured", region is null ? string.Empty : string.Create(CultureInfo.InvariantCulture, $"{region.Width} × {region.Height} photosites from ({region.X}, {region.Y})")),
            ("Middle grey", MiddleGreyWords(profile.MiddleGrey)),
            ("Delivery size", profile.Delivery is { } d ? string.Create(CultureInfo.InvariantCulture, $"{d.WidthPixels} × {d.HeightPixels} pixels") : string.Empty),
            ("Protocol", ForeignText.OneLine(profile.Conditions.Protocol)),
            ("Last frame", Date(profile)),
            ("Frames", string.Create(CultureInfo.InvariantCulture, $"{profile.Frames.Count}, of which {used} used")),
            ("Written by", ForeignText.OneLine($"{profile.Software.Name} {profile.Software.Version}")),
            ("Profile format", ForeignText.OneLine($"{profile.Format} {profile.FormatVersion}")),
        ];
        return [.. facts.Select(f => (f.Name, f.Fact.Length > 0 ? f.Fact : "not stated"))];
    }

    /// <summary>How to repeat the measurement.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static IReadOnlyList<string> Repeat(SensorProfile profile)
    {
        var options = new List<string>();
        if (profile.MiddleGrey.Method == GreyMethodName.Saturation)
        {
            options.Add("--grey saturation");
        }
        else if (profile.MiddleGrey.MeterStepEv is { } step)
        {
            options.Add(string.Create(CultureInfo.InvariantCulture, $"--meter-step {step:0.####}"));
        }

        if (profile.Delivery is { } d)
        {
            options.Add(string.Create(CultureInfo.InvariantCulture, $"--delivery {d.WidthPixels}x{d.HeightPixels}"));
        }

        if (profile.Conditions.Region is { } r)
        {
            options.Add(string.Create(CultureInfo.InvariantCulture, $"--region {r.X},{r.Y},{r.Width},{r.Height}"));
        }

        double[] standard = [40, 20, 10, 4, 1];
        options.AddRange(profile.IsoProfiles.SelectMany(i => i.Latitude.BelowEv).Select(e => e.Snr).Distinct().Except(standard).Order()
            .Select(snr => string.Create(CultureInfo.InvariantCulture, $"--snr {snr:0.####}")));
        string words = string.Concat(options.Select(o => " " + o));
        return
        [
            "From the same frames: check them against the hashes below, then",
            $"sensorlab characterise FRAMES --out PROFILE.json{words}",
            "From this profile alone, without its frames: sensorlab characterise PROFILE.json --out OTHER.json",
            "This report again: sensorlab report PROFILE.json --out FOLDER",
        ];
    }

    private static string MiddleGreyWords(MiddleGrey grey) => grey.Method switch
    {
        GreyMethodName.Metered => Joined(
            "metered frames",
            grey.MeterStepEv is { } step ? string.Create(CultureInfo.InvariantCulture, $"meter step {step:0.###} EV") : string.Empty,
            grey.Readings is { } n ? string.Create(CultureInfo.InvariantCulture, $"{n} independent {(n == 1 ? "reading" : "readings")} at least") : string.Empty,
            grey.MeterStandardUncertaintyEv is { } u ? string.Create(CultureInfo.InvariantCulture, $"standard uncertainty {u:0.000} EV") : string.Empty),
        GreyMethodName.Saturation => "saturation-based speed (ISO 12232)",
        _ => ForeignText.OneLine(grey.Method),
    };

    private static string Date(SensorProfile profile) => profile.CreatedUtc is { } time
        ? time.ToUniversalTime().ToString("d MMMM yyyy, HH:mm 'UTC'", CultureInfo.InvariantCulture)
        : "date not stated";

    private static string Part(string prefix, string? text) => Clipped(text, LongestWord) is { Length: > 0 } line ? prefix + line : string.Empty;

    private static string Clipped(string? text, int longest) =>
        ForeignText.OneLine(text) is { } line && line.Length > longest ? line[..(longest - 1)] + "…" : ForeignText.OneLine(text);

    private static string Joined(params string[] parts) => string.Join(" · ", parts.Where(p => p.Length > 0));
}
