using System.Collections.Concurrent;
using System.Globalization;
using SensorLab.FlawMatrix.Foreign;
using SensorLab.Frames;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Findings;
using SensorLab.Measurement.Levels;
using SensorLab.Pixels;
using SensorLab.Pixels.Defects;
using SensorLab.Pixels.Field;
using SensorLab.Pixels.Tests;
using SensorLab.Profiles;
using SensorLab.Sets;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Flaws;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Measurement.Tests.Findings;

/// <summary>A rehearsal in memory, measured and examined.</summary>
internal static class RehearsedSet
{
    // Several tests ask different things of one rehearsal.
    private static readonly ConcurrentDictionary<string, Lazy<IReadOnlyList<Finding>>> Small = new(StringComparer.Ordinal);

    /// <summary>The LM-2 with a small sensor, so that a set takes a second.</summary>
    public static VirtualBody SmallBody => new() { WidthPixels = 240, HeightPixels = 160 };

    /// <summary>A body of 12 bits whose read noise is a quarter of a code, black a quarter off one.</summary>
    public static VirtualBody CoarseBody => SmallBody with
    {
        BitDepth = 12,
        BlackLevelDn = 100.25,
        DsnuElectron = 0.3,
        IsoSettings = [SmallBody.At(100) with { GainElectronPerDn = 6, ReadNoiseElectron = 1.44 }],
    };

    /// <summary>Few rows of 36 planes, which vary on their own: what chance makes of them is no light, no glow and no pattern.</summary>
    /// <param name="seed">Of the fixed pattern.</param>
    public static VirtualBody BandedSixBySix(ulong seed) => SmallBody with
    {
        ColourFilterArray = Patterns.SixBySixName,
        RowNoiseElectron = 0.3,
        PatternSeed = seed,
        Shutter = new ShutterSeries { StepsPerStop = 2 },
    };

    /// <summary>Findings of the statistics' checks on a rehearsed set.</summary>
    /// <param name="flaws">CODE or CODE=SIZE.</param>
    /// <param name="body">The body; null for the small LM-2.</param>
    /// <param name="seed">The seed.</param>
    /// <param name="isos">ISO settings; empty for the lowest alone.</param>
    public static IReadOnlyList<Finding> Examine(IEnumerable<string> flaws, VirtualBody? body = null, ulong seed = 1, params int[] isos) =>
        body is null && seed == 1
            ? Small.GetOrAdd(string.Join(' ', [.. flaws, .. isos.Select(iso => iso.ToString(CultureInfo.InvariantCulture))]), _ => new(() => IsoChecks.Examine(Evidence(flaws, null, seed, isos)))).Value
            : IsoChecks.Examine(Evidence(flaws, body, seed, isos));

    /// <summary>What the checks look at on the small body's lowest ISO, beside options of the test's own.</summary>
    public static IReadOnlyList<IsoEvidence> Evidence(IEnumerable<string> flaws, IsoOptions options) => Evidence(flaws, null, 1, [], options);

    /// <summary>What the checks look at.</summary>
    public static IReadOnlyList<IsoEvidence> Evidence(IEnumerable<string> flaws, VirtualBody? body = null, ulong seed = 1, params int[] isos) =>
        Evidence(flaws, body, seed, isos, new IsoOptions());

    /// <summary>Findings on the small body's lowest ISO whose frames another law changes.</summary>
    public static IReadOnlyList<Finding> Examine(ForeignFlaw flaw, double size, VirtualBody? body = null) =>
        IsoChecks.Examine(Evidence(flaw, size, body));

    /// <summary>What the checks look at where another law changes the frames.</summary>
    public static IReadOnlyList<IsoEvidence> Evidence(ForeignFlaw flaw, double size, VirtualBody? body = null) =>
        Evidence([], body, 1, [], new IsoOptions(), plan => flaw.Begin(new ForeignScene(plan, size, 1)));

    private static IReadOnlyList<IsoEvidence> Evidence(
        IEnumerable<string> flaws,
        VirtualBody? body,
        ulong seed,
        int[] isos,
        IsoOptions options,
        Func<RehearsalPlan, Func<PlannedFrame, PlannedFrame>>? foreign = null)
    {
        VirtualBody shot = body ?? SmallBody;
        RehearsalPlan plan = RehearsalPlan.Of(new RehearsalOptions
        {
            Body = shot,
            Seed = seed,
            IsoValues = isos.Length > 0 ? isos : [shot.IsoSettings[0].Iso],
            Flaws = [.. flaws.Select(FlawRequest.Parse)],
        });
        SetFrame[] frames = [.. plan.Frames.Select(f => new SetFrame
        {
            File = f.File,
            Raw = f.Raw,
            Role = f.Role,
            LightStep = f.Columns.TryGetValue("lightStep", out string? step) ? step : null,
            ContentKey = (ulong)f.Number,
        })];
        Func<PlannedFrame, PlannedFrame> change = foreign?.Invoke(plan) ?? (frame => frame);
        Dictionary<string, PlannedFrame> planned = plan.Frames.ToDictionary(f => f.File, change);
        FrameSet set = FrameSetBuilder.Build(frames, GreyMethod.Metered, []);
        MeasurementArea area = MeasurementArea.Of(plan.Camera.Layout);
        LevelStatistics[] measured = Measure(area);
        if (GlowMap.Of(measured.Where(l => l.Level.Key.Role == FrameRole.Dark)) is not null && RegionReview.BetterThan(area.Region, measured) is { } better)
        {
            measured = Measure(MeasurementArea.Of(plan.Camera.Layout, better));
        }

        if (LineReview.Of(measured) is { Count: > 0 } dead)
        {
            measured = Measure(measured[0].Area with { DeadLines = dead });
        }

        return [.. measured.GroupBy(l => l.Level.Key.Iso).OrderBy(g => g.Key).Select(g => Evidence(g, options)).OfType<IsoEvidence>()];

        LevelStatistics[] Measure(MeasurementArea area)
        {
            var levels = new LevelStatistics[set.Levels.Count];
            Parallel.For(0, levels.Length, new ParallelOptions { MaxDegreeOfParallelism = 2 }, i =>
            {
                IMosaicReader[] readers = [.. set.Levels[i].Frames.Select(f => plan.Open(planned[f.File]))];
                levels[i] = LevelMeter.Measure(set.Levels[i], readers, area);
            });
            return levels;
        }
    }

    private static IsoEvidence? Evidence(IGrouping<int, LevelStatistics> iso, IsoOptions own)
    {
        LevelStatistics[] levels = [.. iso];
        RawFrame first = levels[0].Level.Frames[0].Raw;
        IsoOptions options = own with
        {
            DeclaredBlackDn = first.Declared.BlackDn.ToDictionary(b => b.Key.ToString(), b => b.Value),
            DeclaredWhiteDn = first.Declared.WhiteDn,
        };
        var reducer = new LevelReducer(levels);
        return IsoEvidence.Of(levels, IsoCharacteriser.Characterise(iso.Key, [.. levels.Select(reducer.Reduce)], options), options);
    }
}
