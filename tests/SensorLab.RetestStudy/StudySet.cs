using System.Globalization;
using MathNet.Numerics.Distributions;
using SensorLab.Measurement.Figures;
using SensorLab.Profiles;

namespace SensorLab.RetestStudy;

/// <summary>One set of the study's body: its sensor profile.</summary>
internal static class StudySet
{
    private const double DoublingCelsius = 6.5;

    /// <summary>Standard deviation of a preview's clip as found, and as stated, in EV.</summary>
    private const double PreviewUncertaintyEv = 0.02;

    /// <summary>The bracket's light over what saturates green: two levels where even red is full, none near the fit's limit.</summary>
    private static readonly double[] Shares = [4.4, 2.4, 0.5, 0.35, 0.24, 0.17, 0.1, 0.06, 0.03, 0.015, 0.006];

    public static SensorProfile Shoot(StudyBody body, StudySetting setting, string firmware, int seed)
    {
        var random = new Random(seed);
        double lamp = Math.Exp(setting.RelitShare * Normal.Sample(random, 0, 1));
        double dark = StudyBody.DarkCurrentElectronPerSecond * Math.Pow(2, setting.TemperatureCelsius * Normal.Sample(random, 0, 1) / DoublingCelsius);
        StudyBody warmed = body.At(setting.RoomCelsius * ((2 * random.NextDouble()) - 1));
        return new SensorProfile
        {
            Software = new SoftwareIdentity("SensorLab", "study"),
            Body = new BodyIdentity("Larkmoor", "LM-2", "20417", firmware),
            RecordingMode = new RecordedMode { BitDepth = 14, Compression = "lossless" },
            Sensor = new SensorGeometry(6048, 4024, "RGGB"),
            Conditions = new ShootingConditions(),
            MiddleGrey = new MiddleGrey { Method = "metered", MeterStepEv = 1.0 / 3 },
            IsoProfiles = [.. warmed.Isos.Select(iso => Characterise(warmed, iso, setting, lamp, dark, random))],
        };
    }

    private static IsoProfile Characterise(StudyBody body, StudyIso iso, StudySetting setting, double lamp, double darkCurrent, Random random)
    {
        var sampler = new LevelSampler(body, iso, setting, darkCurrent, random);
        double saturating = iso.SaturationDn * iso.GainElectronPerDn;
        LevelRecord[] levels =
        [
            .. sampler.Darks(),
            .. Enumerable.Range(1, setting.MeterReadings).Select(reading => sampler.Level("metered", 0.01, MeteredElectron(iso, setting, random), setting.MeteredFrames) with
            {
                LightStep = reading == 1 ? null : string.Create(CultureInfo.InvariantCulture, $"meter {reading}"),
            }),
            .. Shares.Select(share => sampler.Level("bracket", 0.05 * share, share * lamp * saturating * Scattered(setting, random), setting.BracketFrames)),
        ];
        IsoProfile profile = IsoCharacteriser.Characterise(iso.Iso, levels, new IsoOptions()).Profile
            ?? throw new InvalidOperationException($"ISO {iso.Iso} was refused.");
        double clip = body.PreviewClipEv + (PreviewUncertaintyEv * Normal.Sample(random, 0, 1));
        double half = 1.96 * PreviewUncertaintyEv;
        return profile with { Previews = [new PreviewProfile { Look = "neutral", ClipEv = Figure.Estimate(clip, PreviewUncertaintyEv, clip - half, clip + half) }] };
    }

    private static double MeteredElectron(StudyIso iso, StudySetting setting, Random random) =>
        iso.GreyElectron * Math.Pow(2, setting.MeterStepEv * (random.NextDouble() - 0.5))
        * (1 + (setting.LampDriftShare * ((2 * random.NextDouble()) - 1))) * Scattered(setting, random);

    private static double Scattered(StudySetting setting, Random random) => 1 + (setting.LevelScatterShare * Normal.Sample(random, 0, 1));
}
