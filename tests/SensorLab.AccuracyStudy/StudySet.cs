using MathNet.Numerics.Distributions;
using MathNet.Numerics.Random;
using SensorLab.Frames;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Levels;
using SensorLab.Pixels;
using SensorLab.Pixels.Field;
using SensorLab.Profiles;
using SensorLab.Sets;
using SensorLab.Simulation;

namespace SensorLab.AccuracyStudy;

/// <summary>Shoots and characterises one frame set in memory.</summary>
internal static class StudySet
{
    /// <summary>Photosites of a row and rows of most bodies: 96 × 64 a channel.</summary>
    public const int Width = 192;

    public const int Height = 128;

    public const int BracketFrames = 2;

    /// <summary>The metered frames' light as a share of what saturates the most sensitive channel: three stops below.</summary>
    public const double MeteredShare = 0.125;

    /// <summary>The bracket's light: two levels at which even red is saturated, then down to the shadows; none near the fit's limit of 70 %.</summary>
    public static readonly IReadOnlyList<double> BracketShares = [4.2, 2.2, 0.78, 0.5, 0.33, 0.18, 0.09, 0.045, 0.02, 0.008, 0.003];

    /// <summary>Seconds of a bracket exposure at a share of 1.</summary>
    private const double SecondsAtSaturation = 0.1;

    /// <summary>Seconds of dark frames that hold no dark signal, where there are longer ones.</summary>
    private const double ShortDarkSeconds = 0.0005;

    public static IsoProfile Characterise(StudyBody body, ulong seed)
    {
        var camera = new VirtualCamera(body.Body with { PatternSeed = seed });
        double saturating = new BodyTruth(body).SaturatingLightElectron;
        ulong frame = 0;
        var drift = new MersenneTwister((int)(seed % int.MaxValue));
        DarkReference reference = DarkReference.None;
        LevelStatistics Shoot(FrameRole role, double seconds, double share, int frames) =>
            Measure(camera, body, role, seconds, reference, [.. Enumerable.Range(0, frames).Select(_ => new Exposure
            {
                Setting = body.Setting,
                LightElectron = share * saturating,
                ExposureSeconds = seconds,
                Seed = seed,
                FrameNumber = ++frame,
                BlackShiftDn = body.BlackDriftDn * Normal.Sample(drift, 0, 1),
            })]);
        LevelStatistics Light(FrameRole role, double share, int frames) => Shoot(role, share * SecondsAtSaturation, share, frames);

        LevelStatistics[] darks = body.LongDarkSeconds == 0
            ? [Shoot(FrameRole.Dark, SecondsAtSaturation, 0, body.DarkFrames)]
            : [Shoot(FrameRole.Dark, ShortDarkSeconds, 0, body.DarkFrames / 2), Shoot(FrameRole.Dark, body.LongDarkSeconds, 0, body.DarkFrames / 2)];
        reference = DarkReference.Of(darks);
        LevelStatistics[] levels =
        [
            .. darks,
            Light(FrameRole.Metered, MeteredShare, body.MeteredFrames),
            .. BracketShares.Select(share => Light(FrameRole.Bracket, share, BracketFrames)),
        ];
        var reducer = new LevelReducer(levels);
        IsoOptions options = new() { SensorPixels = camera.PixelCount };
        return IsoCharacteriser.Characterise(body.Setting.Iso, [.. levels.Select(reducer.Reduce)], options).Profile
            ?? throw new InvalidOperationException($"{body.Name}: the set of seed {seed} was refused.");
    }

    private static LevelStatistics Measure(VirtualCamera camera, StudyBody body, FrameRole role, double seconds, DarkReference reference, IReadOnlyList<Exposure> exposures)
    {
        var raw = new RawFrame
        {
            Metadata = new FrameMetadata { Iso = body.Setting.Iso, ExposureSeconds = seconds, ApertureFNumber = 5.6 },
            Layout = camera.Layout,
        };
        var frames = new List<SetFrame>();
        var readers = new List<IMosaicReader>();
        foreach (Exposure exposure in exposures)
        {
            ushort[] codes = new ushort[camera.PixelCount];
            camera.Expose(exposure, codes);
            readers.Add(new SimulatedMosaicReader(raw, codes));
            frames.Add(new SetFrame { File = $"{exposure.FrameNumber}", Raw = raw, Role = role, ContentKey = exposure.FrameNumber });
        }

        var level = new Level(new LevelKey(body.Setting.Iso, role, seconds, 5.6, null, null), frames);
        return LevelMeter.Measure(level, readers, MeasurementArea.Of(camera.Layout), reference, CancellationToken.None);
    }
}
