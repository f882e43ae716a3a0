using CsCheck;
using SensorLab.Planning.Plans;
using SensorLab.Planning.Protocols;
using SensorLab.TestData;

namespace SensorLab.Planning.Tests.Plans;

public sealed class ShotPlannerTests
{
    private const int Bodies = 150;
    private const int Phases = 48;

    // What the plan calls harmless, and rounding.
    private const double LargestRipple = MainsLight.HarmlessRipple + 1e-9;

    private const int HourMinutes = 60;

    private static readonly Gen<PlanRequest> Requests =
        from name in OneOf([.. ProtocolLibrary.Names])
        from fastest in Gen.Int[-45, -18]
        from slowest in Gen.Int[-9, 18]
        from isos in OneOf(50, 64, 100, 125, 200, 400, 800, 1600, 6400, 25600, 102400).Array[0, 5]
        from metered in Gen.Int[-30, 6]
        from isMetered in Gen.Bool
        from mains in OneOf(50, 60)
        select new PlanRequest
        {
            Protocol = ProtocolLibrary.Find(name)!,
            Isos = [.. isos.Distinct()],
            Shutter = new ShutterRange(new ShutterTime(fastest), new ShutterTime(slowest)),
            Metered = isMetered ? new MeteredExposure(new ShutterTime(metered), 100) : null,
            Mains = new MainsLight(mains),
        };

    public static TheoryData<string, int?> Hours => new() { { "evening", null }, { "evening", 50 }, { "evening", 60 } };

    public static TheoryData<string> Protocols => [.. ProtocolLibrary.Names];

    [Fact]
    public void Plan_AnyBody_NeitherBandsNorFlickersUnlessItSaysSo() => Requests.Sample(
        request =>
        {
            ShotPlan plan = ShotPlanner.Plan(request);
            bool isTold = plan.Notices.Any(n => n.Code == "light-pulses");
            PlanStep[] lit = [.. plan.Steps.Where(s => s.Role != "dark")];
            double worst = lit.Max(s => Ripple(s, request.Mains!.Value.FrequencyHz));
            return isTold || worst <= LargestRipple;
        },
        iter: Bodies);

    [Fact]
    public void Plan_AnyBody_KeepsToItsShutterAndVisitsEverySettingOnce() => Requests.Sample(
        request =>
        {
            ShotPlan plan = ShotPlanner.Plan(request);
            double fastest = request.Shutter.Fastest.EngravedSeconds;
            double slowest = request.Shutter.Slowest.EngravedSeconds;
            Assert.All(plan.Steps, s => Assert.InRange(s.ExposureSeconds, fastest, slowest));
            Assert.Equal(Enumerable.Range(1, plan.Steps.Count), plan.Steps.Select(s => s.Number));
            Assert.Equal(plan.Steps.Count, plan.Steps.Select(s => (s.Role, s.Iso, s.Shutter, s.LightStep, s.Light, s.Look)).Distinct().Count());
            Assert.Equal(plan.Summary.Frames, plan.Steps.Sum(s => s.Frames));
            foreach (int iso in plan.Isos)
            {
                PlanStep[] own = [.. plan.Steps.Where(s => s.Iso == iso)];
                Assert.Equal(2, own.Count(s => s.Role == "metered"));
                PlanStep[] lit = [.. own.Where(s => s.Role is "metered" or "bracket")];
                PlanStep[] dark = [.. own.Where(s => s.Role == "dark")];
                Assert.Contains(dark, d => d.Shutter == lit.MinBy(l => l.ExposureSeconds)!.Shutter);
                Assert.Contains(dark, d => d.Shutter == lit.MaxBy(l => l.ExposureSeconds)!.Shutter);
            }
        },
        iter: Bodies);

    [Theory]
    [MemberData(nameof(Hours))]
    public void Plan_Evening_TakesAnHourAndAboutTwoHundredAndSeventyFrames(string name, int? mains)
    {
        ShotPlan plan = ShotPlanner.Plan(new PlanRequest
        {
            Protocol = ProtocolLibrary.Find(name)!,
            Metered = new MeteredExposure(ShutterTime.Nearest(1.0 / 60)!.Value, 100),
            Mains = mains is { } hertz ? new MainsLight(hertz) : null,
        });

        Assert.Equal(8, plan.Isos.Count);
        Assert.InRange(plan.Summary.Frames, 250, 290);
        Assert.InRange(plan.Summary.Minutes, 1, HourMinutes);
        Assert.Equal(8, plan.Prediction.Count);
    }

    [Theory]
    [MemberData(nameof(Protocols))]
    public void Plan_CommonBody_ReachesTheClipAndTheShadowsAtEveryIso(string name)
    {
        ShotPlan plan = ShotPlanner.Plan(new PlanRequest { Protocol = ProtocolLibrary.Find(name)! });

        Assert.Empty(plan.Notices);
        foreach (int iso in plan.Isos)
        {
            PlanStep[] bracket = [.. plan.Steps.Where(s => s.Iso == iso && s.Role == "bracket")];
            Assert.True(bracket.Max(s => s.Ev) > 6 && bracket.Min(s => s.Ev) < -2, $"ISO {iso}");
            Assert.DoesNotContain(bracket, s => s.LightStep is not null);
        }
    }

    [Fact]
    public void Plan_NoTimeHidesThePulses_SaysSoWithTheWayOut()
    {
        ShotPlan plan = ShotPlanner.Plan(new PlanRequest
        {
            Protocol = ProtocolLibrary.Find("evening")!,
            Shutter = new ShutterRange(new ShutterTime(-39), new ShutterTime(-21)),
            Mains = new MainsLight(50),
        });

        PlanNotice notice = Assert.Single(plan.Notices, n => n.Code == "light-pulses");
        Assert.Contains("direct", notice.Remedy, StringComparison.Ordinal);
        Assert.Contains(plan.Steps, s => Ripple(s, 50) > LargestRipple);
    }

    [Fact]
    public void Plan_ShutterTooShort_NamesTheEndItCannotReach()
    {
        ShotPlan plan = ShotPlanner.Plan(new PlanRequest
        {
            Protocol = ProtocolLibrary.Find("lights")!,
            Shutter = new ShutterRange(new ShutterTime(-21), new ShutterTime(-12)),
        });

        Assert.Contains(plan.Notices, n => n is { Code: "clip-not-reached", Iso: 400 });
    }

    [Fact]
    public void Plan_LightTooDim_AsksForMore()
    {
        ShotPlan plan = ShotPlanner.Plan(new PlanRequest
        {
            Protocol = ProtocolLibrary.Find("evening")!,
            Isos = [100],
            Metered = new MeteredExposure(new ShutterTime(9), 100),
        });

        Assert.Contains(plan.Notices, n => n.Code == "light-too-dim");
    }

    [Fact]
    public void Plan_LightSpare_SaysHowFarToMoveTheLamp()
    {
        ShotPlan plan = ShotPlanner.Plan(new PlanRequest
        {
            Protocol = ProtocolLibrary.Find("evening")!,
            Metered = new MeteredExposure(ShutterTime.Nearest(1.0 / 1000)!.Value, 100),
        });

        Assert.Contains("less light", plan.Preparations[0], StringComparison.Ordinal);
        Assert.All(plan.Steps.Where(s => s.LightStops is not null), s => Assert.True(s.LightStops <= 0));
    }

    [Fact]
    public void Plan_LaddersBeyondTheShutter_AreToldAndLeftOut()
    {
        ShotPlan plan = ShotPlanner.Plan(new PlanRequest
        {
            Protocol = ProtocolLibrary.Find("long-exposures")!,
            Shutter = new ShutterRange(new ShutterTime(-39), new ShutterTime(9)),
        });

        PlanNotice notice = Assert.Single(plan.Notices, n => n.Code == "time-not-reached");
        Assert.Contains("15, 30", notice.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Plan_FromProfile_PredictsTheIsosThatItHoldsAndNoOther()
    {
        ShotPlan plan = ShotPlanner.Plan(new PlanRequest
        {
            Protocol = ProtocolLibrary.Find("evening")!,
            Isos = [100, 200, 400],
            From = SampleProfiles.ThreeIsos(),
        });

        Assert.DoesNotContain(plan.Prediction, p => p.Iso == 200);
        Assert.Contains(plan.Notices, n => n is { Code: "iso-not-predicted", Iso: 200 });
    }

    [Fact]
    public void Plan_MoreFrames_NarrowThePrediction()
    {
        Protocol evening = ProtocolLibrary.Find("evening")!;
        PlanPrediction Predicted(int frames) => ShotPlanner.Plan(new PlanRequest
        {
            Protocol = evening with { Bracket = evening.Bracket with { FramesPerLevel = frames } },
            Isos = [400],
        }).Prediction[0];

        Assert.True(Predicted(4).GainElectronPerDn.StandardUncertainty < 0.7 * Predicted(2).GainElectronPerDn.StandardUncertainty);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(100, 100)]
    public void Plan_ImpossibleIsos_AreRefused(params int[] isos) =>
        Assert.Throws<PlanUsageException>(() => ShotPlanner.Plan(new PlanRequest { Protocol = ProtocolLibrary.Find("evening")!, Isos = isos }));

    [Theory]
    [InlineData(1.0 / 60, "1/60")]
    [InlineData(1.0 / 64, "1/60")]
    [InlineData(0.3, "0.3")]
    [InlineData(30, "30")]
    [InlineData(32, "30")]
    [InlineData(1.0 / 8000, "1/8000")]
    [InlineData(1.0 / 12500, "1/12800")]
    public void Nearest_EngravedOrExact_IsTheDialsTime(double seconds, string label) => Assert.Equal(label, ShutterTime.Nearest(seconds)!.Value.Label);

    [Fact]
    public void Times_EveryStep_LiesWithinASixthOfAStopOfItsPower()
    {
        foreach (ShutterTime time in new ShutterRange(ShutterTime.Shortest, ShutterTime.Longest).Times)
        {
            Assert.InRange(Math.Abs(Math.Log2(time.EngravedSeconds / time.ExactSeconds)), 0, 1.0 / 6);
            Assert.Equal(time, ShutterTime.Nearest(time.EngravedSeconds));
        }
    }

    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    /// <summary>A lamp that gains and loses 15 % of its light a hundred or 120 times a second, over the time that a row is open, whenever that begins.</summary>
    private static double Ripple(PlanStep step, int hertz)
    {
        double omega = 2 * Math.PI * 2 * hertz;
        double exact = Math.Pow(2, Math.Round(3 * Math.Log2(step.ExposureSeconds)) / 3);
        double worst = 0;
        foreach (double open in new[] { step.ExposureSeconds, exact })
        {
            for (int phase = 0; phase < Phases; phase++)
            {
                double start = 2 * Math.PI * phase / Phases;
                worst = Math.Max(worst, 0.15 * Math.Abs((Math.Cos(start) - Math.Cos(start + (omega * open))) / (omega * open)));
            }
        }

        return worst;
    }
}
