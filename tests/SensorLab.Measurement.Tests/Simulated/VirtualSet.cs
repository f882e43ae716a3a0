using SensorLab.Frames;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Levels;
using SensorLab.Pixels;
using SensorLab.Pixels.Field;
using SensorLab.Profiles;
using SensorLab.Sets;
using SensorLab.Simulation;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Simulated;

/// <summary>A frame set of a virtual body in memory: what its frames hold can be changed before it is characterised.</summary>
internal sealed record VirtualSet
{
    public required VirtualBody Body { get; init; }

    public ulong Seed { get; init; } = 1;

    public FieldShape Field { get; init; }

    public int DarkFrames { get; init; } = 4;

    public int BracketFrames { get; init; } = 2;

    /// <summary>Light of each frame of a level, relative; repeated where there are more frames.</summary>
    public IReadOnlyList<double> Flicker { get; init; } = [1];

    public IReadOnlyList<ReadoutEffect> Effects { get; init; } = [];

    /// <summary>The order in which a level's frames are handed over; null as they were taken.</summary>
    public Func<IReadOnlyList<Exposure>, IReadOnlyList<Exposure>> Order { get; init; } = exposures => exposures;

    public string FilePrefix { get; init; } = "P";

    private VirtualIso Setting => Body.IsoSettings[0];

    /// <summary>A 14-bit body with the read noise, black and pattern of a common sensor.</summary>
    public static VirtualBody Fine { get; } = new()
    {
        WidthPixels = 192,
        HeightPixels = 128,
        BlackLevelDn = 512.25,
        FullWellElectron = 40_000,
        IsoSettings = [new VirtualIso { Iso = 100, GainElectronPerDn = 2.6, ReadNoiseElectron = 3.1, MiddleGreyElectron = 4000 }],
    };

    public IsoProfile Characterise()
    {
        LevelRecord[] levels = Reduce();
        return IsoCharacteriser.Characterise(100, levels, new IsoOptions()).Profile!;
    }

    public LevelRecord[] Reduce()
    {
        var camera = new VirtualCamera(Body with { PatternSeed = Seed });
        double full = Math.Min(Body.FullWellElectron, (Body.LargestCodeDn - Body.BlackLevelDn) * Setting.GainElectronPerDn);
        ulong number = 0;
        DarkReference reference = DarkReference.None;
        LevelStatistics Shoot(FrameRole role, double share, int frames) => Measure(camera, role, share, reference, [.. Enumerable.Range(0, frames).Select(i => new Exposure
        {
            Setting = Setting,
            LightElectron = share * full * Flicker[i % Flicker.Count],
            ExposureSeconds = share,
            Seed = Seed,
            FrameNumber = (1000 * ++number) + (ulong)i,
            Field = Field,
            Effects = Effects,
        })]);

        LevelStatistics dark = Shoot(FrameRole.Dark, 0, DarkFrames);
        reference = DarkReference.Of([dark]);
        LevelStatistics[] statistics =
        [
            dark,
            Shoot(FrameRole.Metered, 0.125, 4),
            .. new[] { 4.2, 2.2, 0.78, 0.5, 0.33, 0.18, 0.09, 0.045, 0.02, 0.008, 0.003 }.Select(share => Shoot(FrameRole.Bracket, share, BracketFrames)),
        ];
        var reducer = new LevelReducer(statistics);
        return [.. statistics.Select(reducer.Reduce)];
    }

    private LevelStatistics Measure(VirtualCamera camera, FrameRole role, double seconds, DarkReference reference, IReadOnlyList<Exposure> exposures)
    {
        var raw = new RawFrame { Metadata = new FrameMetadata { Iso = 100, ExposureSeconds = seconds }, Layout = camera.Layout };
        var readers = new List<IMosaicReader>();
        var frames = new List<SetFrame>();
        foreach (Exposure exposure in Order(exposures))
        {
            ushort[] codes = new ushort[camera.PixelCount];
            camera.Expose(exposure, codes);
            readers.Add(new SimulatedMosaicReader(raw, codes));
            frames.Add(new SetFrame { File = $"{FilePrefix}{exposure.FrameNumber}", Raw = raw, ContentKey = exposure.FrameNumber });
        }

        return LevelMeter.Measure(new Level(new LevelKey(100, role, seconds, 5.6, null, null), frames), readers, MeasurementArea.Of(camera.Layout), reference, CancellationToken.None);
    }
}
