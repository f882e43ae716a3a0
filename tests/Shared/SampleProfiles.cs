using SensorLab.Profiles;

namespace SensorLab.TestData;

/// <summary>Made-up sensor profiles of a made-up body, for every test project that links this file.</summary>
internal static class SampleProfiles
{
    private const double MeterUncertaintyEv = 0.096;

    /// <summary>A full profile: three ISOs with all figures, levels, previews, two lights, findings of each severity.</summary>
    public static SensorProfile ThreeIsos() => Profile("RGGB", [Iso(100, 3.2), Iso(400, 0.8), Iso(1600, 0.2)]) with
    {
        Delivery = new Delivery(3000, 2000),
        Lights =
        [
            new LightRatios("tungsten", new Dictionary<string, double> { ["B"] = -1.6, ["G2"] = 0, ["R"] = 0.4, ["G1"] = 0 }),
            new LightRatios("lamp room", new Dictionary<string, double> { ["R"] = -0.7, ["G1"] = 0, ["G2"] = 0, ["B"] = 0.55 }),
        ],
    };

    /// <summary>A monochrome body at one ISO, with no preview.</summary>
    public static SensorProfile Monochrome() => Profile("monochrome", [Iso(200, 1.6, "Y") with { Previews = [] }]);

    /// <summary>A body whose filters repeat over 6 × 6 photosites, at one ISO.</summary>
    public static SensorProfile LargePattern() => Profile("6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG", [Iso(400, 0.8)]) with { FormatVersion = "1.2" };

    /// <summary>A bracket that ended early at both ends: bounds in place of figures, and figures that are absent.</summary>
    public static SensorProfile Bounds()
    {
        IsoProfile iso = Iso(100, 3.2);
        return Profile("RGGB",
        [
            iso with
            {
                MeterReadings = null,
                MeterStandardUncertaintyEv = null,
                Channels = [.. iso.Channels.Select(WithoutEnds)],
                Latitude = new IsoLatitude
                {
                    AboveEv = Figure.LowerBound(2.4),
                    BelowEv = [new ShadowEnd { Snr = 40, PerPixel = Measured(-0.5, 0.02) }, new ShadowEnd { Snr = 10, PerPixel = Figure.LowerBound(4.2) }, new ShadowEnd { Snr = 4 }],
                },
                SnrCurve = [],
                Previews = [new PreviewProfile { Look = "neutral", ClipEv = Figure.LowerBound(2.1), HighlightWarningPercent = Figure.UpperBound(95) }],
            },
        ]) with
        {
            CreatedUtc = null,
            Body = new BodyIdentity(null, null, null, null),
            RecordingMode = new RecordedMode(),
            Conditions = new ShootingConditions(),
            MiddleGrey = new MiddleGrey { Method = "saturation" },
        };
    }

    /// <summary>Text that is markup, script, control characters, half a surrogate pair, right-to-left marks, in every free string.</summary>
    public static SensorProfile HostileStrings()
    {
        const string Hostile = "<script>alert(\"x\")</script>&amp;'\u0000\u001b[31m\u202e\ud83d \u2028{{}}';--=cmd|' /C'!A0";
        SensorProfile profile = Monochrome();
        return profile with
        {
            Software = new SoftwareIdentity(Hostile, Hostile),
            Body = new BodyIdentity(Hostile, Hostile, Hostile, Hostile),
            RecordingMode = profile.RecordingMode with { Compression = Hostile, Shutter = Hostile, Drive = Hostile, NoiseReduction = Hostile, Crop = Hostile, Description = Hostile },
            Conditions = profile.Conditions with { Light = Hostile, Lens = Hostile, Protocol = Hostile },
            Assumptions = [Hostile],
            IsoProfiles = [profile.IsoProfiles[0] with { Previews = [new PreviewProfile { Look = Hostile }] }],
            Lights = [new LightRatios(Hostile, new Dictionary<string, double> { ["Y"] = 0 })],
            Findings = [profile.Findings[0] with { Frames = [Hostile], Message = Hostile, Remedy = Hostile }],
            Frames = [profile.Frames[0] with { File = Hostile }],
        };
    }

    /// <summary>An estimate with a normal interval.</summary>
    public static Figure Measured(double value, double standardUncertainty, double? degreesOfFreedom = null) =>
        Figure.Estimate(value, standardUncertainty, value - (1.959964 * standardUncertainty), value + (1.959964 * standardUncertainty), degreesOfFreedom);

    private static SensorProfile Profile(string colourFilterArray, IReadOnlyList<IsoProfile> isoProfiles) => new()
    {
        CreatedUtc = new DateTimeOffset(2026, 4, 18, 11, 30, 0, TimeSpan.FromHours(2)),
        Software = new SoftwareIdentity("SensorLab", "0.1.0"),
        Body = new BodyIdentity("Larkmoor", "LM-2", "20417", "1.1"),
        RecordingMode = new RecordedMode { BitDepth = 14, Compression = "lossless", Shutter = "mechanical", Description = "14 bits, lossless, mechanical shutter" },
        Sensor = new SensorGeometry(6048, 4024, colourFilterArray),
        Conditions = new ShootingConditions
        {
            Light = "overcast sky through a diffuser",
            Lens = "50 mm, at infinity",
            ApertureFNumber = 5.6,
            TemperatureCelsius = 21,
            Protocol = "first-acquaintance 1",
            Region = new MeasuredRegion(2424, 1612, 1200, 800),
        },
        MiddleGrey = new MiddleGrey { Method = "metered", MeterStepEv = 1.0 / 3, MeterStandardUncertaintyEv = MeterUncertaintyEv, Readings = 1 },
        Assumptions = ["The light did not change between metering and the metered frame."],
        IsoProfiles = isoProfiles,
        Findings =
        [
            new Finding { Code = FindingCode.MeteredMissing, Severity = FindingSeverity.Refusal, Iso = 3200, Message = "No frame defines middle grey at ISO 3200.", Remedy = "Shoot one where the spot meter reads zero." },
            new Finding { Code = FindingCode.LightDrift, Severity = FindingSeverity.Warning, Iso = isoProfiles[0].Iso, Channel = "G1", Frames = ["bracket/P0012.dng", "bracket/P0013.dng"], Size = 0.03, SizeUnit = "relative", Message = "The light drifted by 3 % between the first and the last frame of the bracket.", Remedy = "Let the lamp warm up, then shoot the bracket again." },
            new Finding { Code = FindingCode.TargetUneven, Severity = FindingSeverity.Note, Size = 0.08, SizeUnit = "ev", Message = "The field falls off by 0.08 EV; this was compensated.", Remedy = "None needed." },
        ],
        Frames =
        [
            new FrameRecord { File = "bracket/P0012.dng", Sha256 = new string('a', 64), Role = "bracket", Iso = isoProfiles[0].Iso, ExposureSeconds = 0.01, Used = true },
            new FrameRecord { File = "P0099.dng", Used = false },
        ],
    };

    private static IsoProfile Iso(int iso, double gainElectronPerDn, params string[] channels)
    {
        SampleSensor sensor = new(gainElectronPerDn);
        string[] names = channels.Length > 0 ? channels : ["R", "G1", "G2", "B"];
        return new IsoProfile
        {
            Iso = iso,
            MeterReadings = 1,
            MeterStandardUncertaintyEv = MeterUncertaintyEv,
            Channels = [.. names.Select(sensor.Channel)],
            Latitude = new IsoLatitude
            {
                AboveEv = Measured(SampleSensor.AboveEv, 0.004, 410),
                FirstClipEv = Measured(SampleSensor.AboveEv - 0.08, 0.004),
                LimitingChannel = names.Length > 1 ? "G1" : names[0],
                LimitingChannelBelow = names[^1],
                // Bands are told of only where they show before the shadow end, here at the lowest ISO alone.
                BandsEndEv = sensor.ShadowEnd(10).PerPixel?.Value > 5.5 ? Measured(5.5, 0.1) : null,
                BelowEv = [.. SampleSensor.Criteria.Select(sensor.ShadowEnd)],
            },
            SnrCurve = [.. Enumerable.Range(-16, 23).Select(half => sensor.SnrPoint(half * 0.5))],
            Levels = [sensor.Level("dark", null, names), sensor.Level("metered", 0, names), .. Enumerable.Range(-6, 10).Select(ev => sensor.Level("bracket", ev, names))],
            Previews = [SampleSensor.Preview("neutral", 1.0), SampleSensor.Preview("vivid", 1.5)],
        };
    }

    private static ChannelProfile WithoutEnds(ChannelProfile channel) => channel with
    {
        SaturationDn = Figure.LowerBound(9000),
        SaturationElectron = Figure.LowerBound(28800),
        FirstClipDn = null,
        PrnuPercent = Figure.UpperBound(0.9),
        Latitude = new ChannelLatitude { AboveEv = Figure.LowerBound(2.4) },
        DngNoiseProfile = null,
    };
}
