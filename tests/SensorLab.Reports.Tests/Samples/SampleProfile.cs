using SensorLab.Profiles;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.Reports.Tests.Samples;

/// <summary>Sensor profiles of a body that does not exist, computed from a plausible physics with seeded noise.</summary>
internal static class SampleProfile
{
    private static readonly double[] Criteria = [40, 20, 10, 4, 1];

    public static SensorProfile Of(params VirtualBody[] bodies) => new()
    {
        CreatedUtc = new DateTimeOffset(2026, 4, 18, 9, 30, 0, TimeSpan.Zero),
        Software = new SoftwareIdentity("SensorLab", "0.1.0"),
        Body = new BodyIdentity("Larkmoor", "LM-2", "20417", "1.1"),
        RecordingMode = new RecordedMode { BitDepth = 14, Compression = "lossless", Shutter = "mechanical" },
        Sensor = new SensorGeometry(6048, 4024, bodies.Length > 0 && bodies[0].Sensitivity.ContainsKey("Y") ? "monochrome" : "RGGB"),
        Conditions = new ShootingConditions { Light = "north window of the lamp room", ApertureFNumber = 5.6 },
        MiddleGrey = new MiddleGrey { Method = "metered", MeterStepEv = 1 / 3.0, MeterStandardUncertaintyEv = 0.096, Readings = 1 },
        IsoProfiles = [.. bodies.Select(body => Iso(body))],
    };

    public static SensorProfile ThreeIsos() => Of([.. new[] { 100, 400, 1600 }.Select(VirtualBody.AtIso)]);

    public static SensorProfile TwentyIsos() => Of([.. Enumerable.Range(0, 20).Select(third => VirtualBody.AtIso((int)Math.Round(100 * Math.Pow(2, third / 2.0) / 10) * 10))]);

    public static IsoProfile Iso(VirtualBody body, int seed = 7)
    {
        var random = new Random(seed + body.Iso);
        double above = Math.Log2(body.SaturationDn / body.MiddleGreyDn);
        return new IsoProfile
        {
            Iso = body.Iso,
            MeterReadings = 1,
            MeterStandardUncertaintyEv = 0.096,
            Channels = [.. body.Sensitivity.Keys.Select(name => Channel(body, name))],
            Latitude = new IsoLatitude
            {
                AboveEv = Known(above, 0.004),
                FirstClipEv = Known(above - 0.09, 0.004),
                LimitingChannel = body.Sensitivity.ContainsKey("Y") ? "Y" : "G1",
                BelowEv = [.. Criteria.Select(snr => new ShadowEnd { Snr = snr, PerPixel = -body.BelowEv(snr) < above ? Known(body.BelowEv(snr), 0.004 + (0.02 / snr)) : null })],
            },
            SnrCurve = [.. Curve(body, above)],
            Levels = [.. Levels(body, random)],
            Previews = [new PreviewProfile { Look = "neutral", ClipEv = Known(above - 0.7, 0.02) }],
        };
    }

    public static Figure Known(double value, double uncertainty) =>
        Figure.Estimate(value, uncertainty, value - (1.96 * uncertainty), value + (1.96 * uncertainty));

    private static ChannelProfile Channel(VirtualBody body, string name) => new()
    {
        Name = name,
        BlackLevelDn = Known(body.BlackDn, 0.01),
        GainElectronPerDn = Known(body.GainElectronPerDn, body.GainElectronPerDn * 0.002),
        ReadNoiseElectron = Known(body.ReadNoiseElectron, 0.01),
        ReadNoiseDn = Known(body.ReadNoiseElectron / body.GainElectronPerDn, 0.008),
        SaturationDn = Known(body.SaturationDn, 2),
        FirstClipDn = Known(body.SaturationDn * 0.94, 5),
        CompressionPercent = body.CompressionPercent > 0 ? Known(body.CompressionPercent, 0.05) : null,
        MiddleGreyDn = Known(body.Recorded(body.MiddleGreyDn * body.Sensitivity[name]), 0.4),
        Latitude = new ChannelLatitude(),
    };

    private static IEnumerable<SnrPoint> Curve(VirtualBody body, double aboveEv)
    {
        for (double ev = -11; ev < aboveEv + 0.24; ev += 0.25)
        {
            double at = Math.Min(ev, aboveEv);
            double signal = body.MiddleGreyDn * Math.Pow(2, at);
            (double total, double temporal) = (body.Snr(signal, true), body.Snr(signal, false));
            yield return new SnrPoint { Ev = at, SnrTotal = Known(total, total * 0.004), SnrTemporal = Known(temporal, temporal * 0.003) };
        }
    }

    private static IEnumerable<LevelRecord> Levels(VirtualBody body, Random random)
    {
        yield return Level(body, "dark", null, random);
        for (double ev = -8; ev <= 4; ev += 0.5)
        {
            yield return Level(body, ev == 0 ? "metered" : "bracket", ev, random);
        }
    }

    private static LevelRecord Level(VirtualBody body, string role, double? ev, Random random) => new()
    {
        Role = role,
        ExposureSeconds = 0.01 * Math.Pow(2, ev ?? 0),
        Ev = ev,
        Frames = 2,
        PixelsPerChannel = 90_000,
        RowsPerChannel = 300,
        Channels = [.. body.Sensitivity.Select(pair => LevelChannelOf(body, pair.Key, ev is { } stops ? body.MiddleGreyDn * pair.Value * Math.Pow(2, stops) : 0, random))],
    };

    private static LevelChannel LevelChannelOf(VirtualBody body, string name, double exposedDn, Random random)
    {
        double signal = Math.Min(body.Recorded(exposedDn), body.SaturationDn);
        bool clips = signal >= body.SaturationDn;
        double temporal = clips ? 0.4 : Noisy(body.TemporalVarianceDn2(exposedDn), random);
        double fixedPattern = clips ? 0.1 : Noisy(body.FixedVarianceDn2(signal), random);
        return new LevelChannel
        {
            Name = name,
            MeanDn = body.BlackDn + signal,
            TemporalVarianceDn2 = temporal,
            TemporalParts = Parts(temporal),
            FixedPatternVarianceDn2 = fixedPattern,
            FixedPatternParts = Parts(fixedPattern),
            ClippedFraction = clips ? 0.98 : 0,
            UsedInFit = signal < 0.7 * body.SaturationDn,
        };
    }

    // 2σ⁴ over 90 000 degrees of freedom is the variance of a pair's variance.
    private static double Noisy(double variance, Random random) => variance * (1 + (Normal(random) * Math.Sqrt(2 / 90_000.0)));

    private static VarianceParts Parts(double variance) => new()
    {
        PixelDn2 = variance,
        PixelUncertaintyDn2 = variance * Math.Sqrt(2 / 90_000.0),
        RowDn2 = 0,
        RowUncertaintyDn2 = 0,
        ColumnDn2 = 0,
        ColumnUncertaintyDn2 = 0,
    };
}
