using SensorLab.Bench.Api;
using SensorLab.Profiles;

namespace SensorLab.Bench.Tests;

/// <summary>When an ISO has enough, and when it is asked for more.</summary>
public sealed class EnoughTests(RehearsedEvening evening) : IClassFixture<RehearsedEvening>
{
    /// <summary>The rehearsed frames have 1/400 of the photosites of a body's: what is wanted of a body is wanted twentyfold here.</summary>
    private const double Smaller = 20;

    private const double FewerByAThird = 2.0 / 3;

    [Fact]
    public async Task QuietLamp_WithGoalsInReach_EndsWithAThirdFewerFramesAndEveryGoalReached()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        await bench.OpenAsync(evening.PlanDocument);
        BenchState state = await bench.StateAsync();
        foreach ((string figure, double goal) in state.Wanted)
        {
            await bench.WantAsync(figure, Smaller * goal);
        }

        int shot = await ShootWhatIsAskedAsync(bench);
        BenchState end = await bench.UntilAsync(s => s.Next is null && s.Isos.All(i => i.IsEnough), "both ISOs have enough");
        byte[] document = await bench.FinishAsync();
        BenchState done = await bench.StateAsync();
        using var stream = new MemoryStream(document);
        SensorProfile profile = SensorProfileReader.Read(stream);

        Assert.InRange(shot, 1, FewerByAThird * evening.Frames.Count);
        Assert.Equal(evening.Frames.Count - shot, end.Isos.Sum(i => i.Skipped));
        Assert.Equal(evening.Plan.Isos, profile.IsoProfiles.Select(i => i.Iso));
        Assert.NotEmpty(done.Figures);
        Assert.All(Sessions.WantedFigures.Of(profile, done.Wanted), f => Assert.True(f.IsReached, $"ISO {f.Iso}: {f.Label} is sure to {f.Uncertainty}, wanted {f.Wanted} {f.WantedUnit}."));
    }

    [Fact]
    public async Task Goals_OutOfThePlansReach_AreSaidWithTheFramesThatWouldDo()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        await bench.OpenAsync(evening.PlanDocument);
        for (int i = 0; i < evening.Frames.Count; i++)
        {
            evening.Shoot(bench.Card, i);
        }

        BenchState all = await bench.UntilAsync(s => s.Levels.All(l => l.State == "measured"), "all levels are measured");
        FigureBrief noise = all.Figures.First(f => f.Name == "readNoise");
        await bench.WantAsync("readNoise", 0.8 * noise.Uncertainty!.Value);
        foreach (FigureBrief other in all.Figures.Where(f => f.Name != "readNoise"))
        {
            await bench.WantAsync(other.Name, 1000);
        }

        BenchState asked = await bench.UntilAsync(s => s.Next?.Reason is not null, "more frames are asked for");

        // Half as sure again takes (1/0.8)² − 1 = 0.56 times the eight dark frames.
        Assert.Equal("dark", asked.Next!.Role);
        Assert.InRange(asked.Next.Frames, 4, 6);
        Assert.Contains(asked.Isos, i => !i.IsEnough);
    }

    [Fact]
    public async Task LampThatMoves_WithGoalsInReach_GetsNoDiscount()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        await bench.OpenAsync(evening.PlanDocument);
        foreach (string figure in (await bench.StateAsync()).Wanted.Keys)
        {
            await bench.WantAsync(figure, 1000);
        }

        // One and a half percent from frame to frame: less than a single frame is blamed for.
        for (int i = 0; i < evening.Frames.Count / 2; i++)
        {
            evening.Shoot(bench.Card, evening.StepOf(i).Role == RoleName.Dark ? evening.Frames[i] : RehearsedEvening.Lit(evening.Frames[i], i % 2 == 0 ? 0.015 : -0.015), i);
        }

        BenchState state = await bench.UntilAsync(s => s.Frames.Assigned == evening.Frames.Count / 2 && s.Findings.Any(f => f.Code == FindingCode.LightFlicker), "all frames are told and the flicker is said");

        Assert.All(state.Isos, i => Assert.False(i.IsEnough));
        Assert.Equal(evening.Frames.Count / 2, state.Next!.FramesLeft);
    }

    /// <summary>Shoots step by step what the page asks for, until it asks for nothing more.</summary>
    private async Task<int> ShootWhatIsAskedAsync(RunningBench bench)
    {
        int shot = 0;
        while (true)
        {
            BenchState state = await bench.UntilAsync(s => s.Frames.Assigned == shot && IsMeasured(s), "what was shot is measured");
            if (state.Next is not { Step: { } number })
            {
                return shot;
            }

            int first = evening.IndexOf(evening.Plan.Steps[number - 1]);
            for (int i = 0; i < state.Next.Frames; i++)
            {
                evening.Shoot(bench.Card, first + i);
                shot++;
            }
        }
    }

    // Before the first ISO's metered frames there is nowhere to measure; an ISO's own come before its figures.
    private static bool IsMeasured(BenchState state) => state.Levels.Where(l => l.Role == RoleName.Bracket && l.Frames > 0).All(l => l.State == "measured") || state.Isos.All(i => i.IsEnough);
}
