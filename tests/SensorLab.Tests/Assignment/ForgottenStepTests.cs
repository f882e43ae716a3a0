using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;
using SensorLab.TestData;

namespace SensorLab.Tests.Assignment;

/// <summary>Filters that nobody wrote down: their frames are told, or the ISO is refused; no figure is wrong without a word.</summary>
public sealed class ForgottenStepTests(ITestOutputHelper output) : IDisposable
{
    /// <summary>What a figure may be off without harm: the measurement model, section 11.</summary>
    private const double ToleranceEv = 0.03;

    private const double GainTolerance = 0.01;

    private const double Deviations = 5;

    private const int Seeds = 20;

    private readonly TemporaryFolder _folder = new();

    /// <summary>What was forgotten: stops of the first and second filter, every how many levels, which share of a level's frames, at one ISO or all, at how many of the longest times alone.</summary>
    private static readonly Step[] Steps =
    [
        new(1.0 / 3, 0, 2, 2, IsOneIso: false), new(0.5, 0, 2, 2, IsOneIso: true), new(1, 0, 2, 2, IsOneIso: false), new(2, 0, 3, 2, IsOneIso: true),
        new(3, 0, 2, 2, IsOneIso: false), new(6, 0, 2, 2, IsOneIso: false), new(6, 0, 4, 2, IsOneIso: true), new(8, 0, 2, 2, IsOneIso: false),
        new(10, 0, 2, 2, IsOneIso: true), new(10, 0, 2, 2, IsOneIso: false), new(3, 6, 2, 2, IsOneIso: false), new(1, 2, 2, 2, IsOneIso: true),
        new(6, 10, 3, 2, IsOneIso: false), new(1.0 / 3, 0, 2, 1, IsOneIso: false), new(1, 0, 2, 1, IsOneIso: false), new(3, 0, 3, 1, IsOneIso: true),
        new(6, 0, 2, 1, IsOneIso: false), new(10, 0, 2, 1, IsOneIso: false), new(2.0 / 3, 0, 2, 2, IsOneIso: false), new(4, 0, 1, 2, IsOneIso: true),
        new(6, 0, 1, 2, IsOneIso: false, LongestLevels: 2), new(2, 0, 1, 2, IsOneIso: false, LongestLevels: 1), new(4, 0, 1, 1, IsOneIso: true, LongestLevels: 3),
    ];

    public static TheoryData<int> Quick => [0, 5, 10, 16, 20, 21, 22];

    public void Dispose() => _folder.Dispose();

    [Theory]
    [MemberData(nameof(Quick))]
    public Task Characterise_ForgottenStep_IsNamedAndNoFigureIsWrong(int step) => JudgeAsync(step, 1);

    /// <summary>A meter that read zero in both lights half a stop apart was set anew in each; a whole stop apart, one of the readings is of another scene.</summary>
    [Theory]
    [InlineData(0.5, false)]
    [InlineData(1, true)]
    public async Task Characterise_MeteredInTwoLights_IsRefusedWhereTheReadingsDisagree(double stops, bool isRefused)
    {
        RehearsalPlan plan = PlanOf(1);
        string place = _folder.File("set");
        Write(plan, new Step(stops, 0, 2, 2, IsOneIso: true, IsMeteredToo: true), place);

        SensorProfile profile = await Characterisation.RunAsync(place, new CharacterisationOptions { Jobs = 2 }, null, TestContext.Current.CancellationToken);

        Assert.Equal(isRefused ? [100] : [100, 800], profile.IsoProfiles.Select(i => i.Iso));
        Assert.Equal(isRefused, profile.Findings.Any(f => f is { Code: FindingCode.LightStepped, Severity: FindingSeverity.Refusal, Iso: 800 } && f.Message.Contains("in several lights", StringComparison.Ordinal)));
        Assert.All(profile.Findings.Where(f => f.Code == FindingCode.LightStepped), f => Assert.Matches($@"by [+-]{stops:F1} stops", f.Message));
    }

    [Fact]
    [Trait("Category", "Study")]
    public async Task Characterise_EveryForgottenStep_IsNamedAndNoFigureIsWrong()
    {
        var silent = new List<string>();
        int named = 0;
        int refused = 0;
        for (int step = 0; step < Steps.Length; step++)
        {
            for (ulong seed = 1; seed <= Seeds; seed++)
            {
                (bool isNamed, bool isRefused, IReadOnlyList<string> wrong) = await RunAsync(Steps[step], seed);
                named += isNamed ? 1 : 0;
                refused += isRefused ? 1 : 0;
                if (!isNamed && wrong.Count > 0)
                {
                    silent.Add(string.Create(CultureInfo.InvariantCulture, $"{Steps[step]} seed {seed}: {string.Join("; ", wrong)}"));
                }
            }
        }

        string text = string.Create(CultureInfo.InvariantCulture, $"{Steps.Length} forgotten steps (a third of a stop to ten stops, one ISO or both, two different filters, whole pairs or single frames, only at times that clip without it), {Seeds} seeds each: named `light-stepped` in {named} of {Steps.Length * Seeds} sets, {refused} of them with an ISO refused; wrong without it: {silent.Count}.");
        output.WriteLine(text);
        silent.ForEach(output.WriteLine);
        if (Environment.GetEnvironmentVariable("SENSORLAB_WRITE_RESULTS") is not null)
        {
            StudyResults.Write("tests/SensorLab.Tests/Assignment", "Forgotten light steps", "bash tests/studies.sh cards", text);
        }

        Assert.Empty(silent);
    }

    private async Task JudgeAsync(int step, ulong seed)
    {
        (bool isNamed, bool isRefused, IReadOnlyList<string> wrong) = await RunAsync(Steps[step], seed);

        Assert.True(isNamed);
        Assert.True(isRefused || wrong.Count == 0, string.Join("; ", wrong));
    }

    private async Task<(bool IsNamed, bool IsRefused, IReadOnlyList<string> Wrong)> RunAsync(Step step, ulong seed)
    {
        RehearsalPlan plan = PlanOf(seed);
        string place = _folder.File(string.Create(CultureInfo.InvariantCulture, $"set-{seed}"));
        Write(plan, step, place);
        IReadOnlyList<IsoTruth> truth = RehearsalTruth.Of(plan);
        try
        {
            SensorProfile profile = await Characterisation.RunAsync(place, new CharacterisationOptions { Jobs = 2 }, null, TestContext.Current.CancellationToken);
            bool isNamed = profile.Findings.Any(f => f.Code == FindingCode.LightStepped);
            return (isNamed, profile.IsoProfiles.Count < truth.Count, [.. profile.IsoProfiles.SelectMany(iso => Wrong(iso, truth.Single(t => t.Iso == iso.Iso)))]);
        }
        catch (FrameSetRefusedException refused)
        {
            return (refused.Findings.Any(f => f.Code == FindingCode.LightStepped), true, []);
        }
        finally
        {
            Directory.Delete(place, recursive: true);
        }
    }

    private static RehearsalPlan PlanOf(ulong seed) => RehearsalPlan.Of(new RehearsalOptions
    {
        Body = new VirtualBody { Look = null, WidthPixels = 120, HeightPixels = 80, PatternSeed = seed },
        IsoValues = [100, 800],
        Seed = seed,
    });

    // Frames of some levels again behind a filter, of which frames.csv knows nothing.
    private static void Write(RehearsalPlan plan, Step step, string place)
    {
        int number = plan.Frames.Max(f => f.Number);
        var frames = new List<PlannedFrame>(plan.Frames);
        foreach (var level in plan.Frames.Where(f => (f.Role == FrameRole.Bracket || (step.IsMeteredToo && f.Role == FrameRole.Metered)) && (!step.IsOneIso || f.Exposure.Setting.Iso == 800)).GroupBy(f => f.Exposure.Setting.Iso).SelectMany(iso => Levels(iso, step)))
        {
            foreach (double stops in new[] { step.Stops, step.SecondStops }.Where(s => s > 0))
            {
                foreach (PlannedFrame model in level.Take(step.FramesALevel))
                {
                    number++;
                    frames.Add(model with
                    {
                        Number = number,
                        Exposure = model.Exposure with { FrameNumber = (ulong)number, LightElectron = model.Exposure.LightElectron * Math.Pow(2, -stops) },
                        Raw = model.Raw with { Metadata = model.Raw.Metadata with { CaptureTime = model.Raw.Metadata.CaptureTime?.AddMinutes(40 + stops) } },
                    });
                }
            }
        }

        foreach (PlannedFrame frame in frames)
        {
            string path = Path.Combine(place, frame.File);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllBytes(path, plan.Encode(frame));
        }

        string[] rows = [.. plan.Frames.Where(f => f.Columns.ContainsKey("lightStep")).Select(f => $"{f.File},{f.Columns["lightStep"]}")];
        File.WriteAllLines(Path.Combine(place, "frames.csv"), rows.Prepend("file,lightStep"));
    }

    private static IEnumerable<IGrouping<double, PlannedFrame>> Levels(IEnumerable<PlannedFrame> iso, Step step)
    {
        IGrouping<double, PlannedFrame>[] all = [.. iso.GroupBy(f => f.Exposure.ExposureSeconds)];
        return step.LongestLevels > 0
            ? all.OrderByDescending(l => l.Key).Take(step.LongestLevels)
            : all.Where((_, i) => i % step.EveryLevel == 0);
    }

    private static IEnumerable<string> Wrong(IsoProfile iso, IsoTruth truth)
    {
        foreach (ChannelProfile channel in iso.Channels)
        {
            if (Fault($"gain {channel.Name}", channel.GainElectronPerDn, truth.GainElectronPerDn, GainTolerance * truth.GainElectronPerDn) is { } gain)
            {
                yield return gain;
            }
        }

        if (truth.AboveEv is { } above && Fault("above", iso.Latitude.AboveEv, above, ToleranceEv) is { } bright)
        {
            yield return bright;
        }

        foreach (ShadowEnd end in iso.Latitude.BelowEv)
        {
            string name = string.Create(CultureInfo.InvariantCulture, $"snr{end.Snr}");
            if (truth.BelowEv.TryGetValue(name, out double below) && Fault(name, end.PerPixel, below, ToleranceEv) is { } dark)
            {
                yield return dark;
            }
        }
    }

    private static string? Fault(string name, Figure? figure, double truth, double tolerance) =>
        figure is { Value: { } value, StandardUncertainty: { } uncertainty } && Math.Abs(value - truth) > Math.Max(tolerance, Deviations * uncertainty)
            ? string.Create(CultureInfo.InvariantCulture, $"{name} {value:0.####} for {truth:0.####}")
            : null;

    /// <summary>What was forgotten.</summary>
    private sealed record Step(double Stops, double SecondStops, int EveryLevel, int FramesALevel, bool IsOneIso, int LongestLevels = 0, bool IsMeteredToo = false);
}
