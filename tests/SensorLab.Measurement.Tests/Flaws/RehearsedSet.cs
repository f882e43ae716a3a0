using System.Collections.Concurrent;
using System.Globalization;
using SensorLab.Frames;
using SensorLab.Measurement.Flaws;
using SensorLab.Measurement.Latitude;
using SensorLab.Measurement.Noise;
using SensorLab.Measurement.Sets;
using SensorLab.Measurement.Statistics;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Flaws;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Measurement.Tests.Flaws;

/// <summary>A rehearsal in memory, measured and examined.</summary>
internal static class RehearsedSet
{
    // Several tests ask different things of one rehearsal.
    private static readonly ConcurrentDictionary<string, Lazy<IReadOnlyList<Finding>>> Small = new(StringComparer.Ordinal);

    /// <summary>The LM-2 with a small sensor, so that a set takes a second.</summary>
    public static VirtualBody SmallBody => new() { WidthPixels = 240, HeightPixels = 160 };

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

    private static IReadOnlyList<IsoEvidence> Evidence(IEnumerable<string> flaws, VirtualBody? body, ulong seed, int[] isos, IsoOptions options)
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
        Dictionary<string, PlannedFrame> planned = plan.Frames.ToDictionary(f => f.File);
        FrameSet set = FrameSetBuilder.Build(frames, GreyMethod.Metered, []);
        MeasurementArea area = MeasurementArea.Of(plan.Camera.Layout);
        var measured = new LevelStatistics[set.Levels.Count];
        Parallel.For(0, measured.Length, new ParallelOptions { MaxDegreeOfParallelism = 2 }, i =>
        {
            IMosaicReader[] readers = [.. set.Levels[i].Frames.Select(f => plan.Open(planned[f.File]))];
            measured[i] = LevelMeter.Measure(set.Levels[i], readers, area);
        });
        return [.. measured.GroupBy(l => l.Level.Key.Iso).OrderBy(g => g.Key).Select(g => Evidence(g, options)).OfType<IsoEvidence>()];
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
        IsoProfile? profile = IsoCharacteriser.Characterise(iso.Key, [.. levels.Select(reducer.Reduce)], options).Profile;
        return profile is null ? null : IsoEvidence.Of(levels, profile, options);
    }
}
