using SensorLab.Debrief;
using SensorLab.Debriefs;
using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Scenes;
using SensorLab.TestData;

namespace SensorLab.Tests.Debriefs;

/// <summary>Debriefs of simulated assignments against what is true of the scene and the body.</summary>
public sealed class DebriefAccuracyTests(JobBodies bodies) : IClassFixture<JobBodies>
{
    /// <summary>The goal for headroom.</summary>
    private const double HeadroomToleranceEv = 0.05;

    /// <summary>The goal for advice.</summary>
    private const double AdviceToleranceEv = 0.15;

    /// <summary>The goal for clipped shares: a tenth of itself, or 0.01 % of the channel.</summary>
    private const double ShareTolerance = 0.1;
    private const double ShareTolerancePercent = 0.01;

    /// <summary>Shares of shadows: edges of stones fall into cells of two tones, a cell's width along each.</summary>
    private const double ShadowTolerancePercent = 2;

    // The brightest stones of the wall, at the metered exposure, lie so far below the clip.
    private const double PlacedEv = 0;

    private static double BrightestEv(VirtualBody body)
    {
        JobShot metered = Shot(body, new JobScene(body.Layout(), 0), 0, "m.dng");
        return JobTruth.HeadroomEv(body, metered, PlacedEv, SceneColour.Neutral) - 0.1;
    }

    private static JobShot Shot(VirtualBody body, JobScene scene, double exposureEv, string file, ulong number = 1) =>
        new() { File = file, Scene = scene, Iso = body.IsoSettings[0].Iso, ExposureEv = exposureEv, Number = number };

    /// <summary>A white wall in the sun over a dark doorway, with points of light and hot pixels that are none of its surface.</summary>
    private static JobScene Wall(VirtualBody body) => new JobScene(body.Layout(), -1.5)
        .WithWall(new PixelRectangle(96, 96, 480, 320), BrightestEv(body) - 0.9, BrightestEv(body), 80)
        .With(new PixelRectangle(640, 320, 256, 288), -9, SceneColour.Neutral)
        .WithPoints(60, 3, 6, 3)
        .WithHotPixels(60, 4);

    private static JobScene BlackRoom(VirtualBody body) => new JobScene(body.Layout(), -7)
        .With(new PixelRectangle(400, 240, 96, 96), 1, SceneColour.Neutral)
        .WithHotPixels(120, 9);

    private static JobScene Seaside(VirtualBody body) => new JobScene(body.Layout(), -2)
        .WithSky(new PixelRectangle(0, 0, 960, 288), 2, 0.5)
        .WithPoints(40, 2, 7, 5);

    private DayDebrief Debrief(string name, params JobShot[] shots)
    {
        using var folder = new TemporaryFolder();
        JobWriter.Write(JobBodies.Body(name), shots, folder.Path);
        return DebriefRun.RunAsync(bodies.Profile(name), folder.Path, 2, null, TestContext.Current.CancellationToken).GetAwaiter().GetResult();
    }

    [Theory]
    [MemberData(nameof(JobBodies.Names), MemberType = typeof(JobBodies))]
    public void Headroom_WallsRoomsAndSkies_IsWithinFiveHundredths(string name)
    {
        VirtualBody body = JobBodies.Body(name);
        JobShot wall = Shot(body, Wall(body), -0.5, "wall.dng");
        JobShot room = Shot(body, BlackRoom(body), 0, "room.dng", 2);
        JobShot sea = Shot(body, Seaside(body), -0.3, "sea.dng", 3);

        DayDebrief day = Debrief(name, wall, room, sea);

        // By name: room, sea, wall. The sky's lowest rows of a thousandth of the frame are within a hundredth of its horizon's tone.
        Assert.Equal(JobTruth.HeadroomEv(body, room, 1, SceneColour.Neutral), day.Frames[0].HeadroomLeftEv, HeadroomToleranceEv);
        Assert.Equal(JobTruth.HeadroomEv(body, sea, 2, SceneColour.Sky), day.Frames[1].HeadroomLeftEv, HeadroomToleranceEv);
        Assert.Equal(JobTruth.HeadroomEv(body, wall, BrightestEv(body), SceneColour.Neutral), day.Frames[2].HeadroomLeftEv, HeadroomToleranceEv);
        Assert.All(day.Frames, f => Assert.Equal(f.HeadroomLeftEv, f.ExposeToClipEv!.Value, HeadroomToleranceEv));
        Assert.All(day.Frames, f => Assert.Equal(0, f.ClippedSurfacePercent));
    }

    [Theory]
    [MemberData(nameof(JobBodies.Names), MemberType = typeof(JobBodies))]
    public void ClippedPercent_KnownShares_IsWithinATenth(string name)
    {
        VirtualBody body = JobBodies.Body(name);
        JobShot[] shots = [.. new[] { -0.5, 0.6, 1.6 }.Select((ev, i) => Shot(body, Wall(body), ev, $"{i}.dng", (ulong)i + 1))];

        DayDebrief day = Debrief(name, shots);

        foreach ((JobShot shot, FrameDebrief frame) in shots.Zip(day.Frames))
        {
            foreach (SensorChannel channel in body.Filters.Channels)
            {
                double truth = JobTruth.ClippedPercent(body, shot, channel);
                Assert.Equal(truth, frame.ClippedPercent[channel.ToString()], Math.Max(ShareTolerancePercent, ShareTolerance * truth));
            }
        }

        // Points and hot pixels clip, and are no surfaces.
        Assert.All(day.Frames[0].ClippedPercent.Values, percent => Assert.True(percent > 0));
        Assert.Equal(0, day.Frames[0].ClippedSurfacePercent);
        Assert.True(day.Frames[1].ClippedSurfacePercent > 1);
    }

    [Theory]
    [MemberData(nameof(JobBodies.Names), MemberType = typeof(JobBodies))]
    public void Advice_RightLowAndHigh_HasSignAndSize(string name)
    {
        VirtualBody body = JobBodies.Body(name);
        foreach (double offsetEv in new[] { 0.0, -0.5, 1.0 })
        {
            double exposureEv = 0.1 + offsetEv;
            JobShot[] shots = [.. Enumerable.Range(1, 5).Select(i => Shot(body, Wall(body), exposureEv - 0.02, $"{i}.dng", (ulong)i))];

            IsoUse use = Assert.Single(Debrief(name, shots).Isos);

            double truth = JobTruth.HeadroomEv(body, shots[0], BrightestEv(body), SceneColour.Neutral);
            // A stop high, the last channel is at its clip: the advice is a bound, and no further off than an estimate may be.
            double advised = (use.ExposeToClipEv!.Value ?? use.ExposeToClipEv.AtMost)!.Value;
            Assert.Equal(truth, advised, AdviceToleranceEv);
            Assert.True(use.ExposeToClipEv.AtMost is null || truth <= advised);
            Assert.True(offsetEv == 0 || Math.Sign(advised) == Math.Sign(-offsetEv));
        }
    }

    [Fact]
    public void ExposeToClip_WhiteWallUnderABlueSky_IsNotMisledByTheSky()
    {
        VirtualBody body = JobBodies.Body("well");
        JobScene scene = new JobScene(body.Layout(), -1.5)
            .WithSky(new PixelRectangle(0, 0, 960, 288), 1.6, 0.6)
            .WithWall(new PixelRectangle(96, 288, 480, 320), BrightestEv(body) - 0.9, BrightestEv(body), 40);
        JobShot[] shots = [.. new[] { 0.5, 0.8, 1.0 }.Select((ev, i) => Shot(body, scene, ev, $"{i}.dng", (ulong)i + 1))];

        DayDebrief day = Debrief("well", shots);

        Assert.All(shots.Zip(day.Frames), pair =>
            Assert.Equal(JobTruth.HeadroomEv(body, pair.First, BrightestEv(body), SceneColour.Neutral), pair.Second.ExposeToClipEv!.Value, AdviceToleranceEv));
    }

    [Theory]
    [MemberData(nameof(JobBodies.Names), MemberType = typeof(JobBodies))]
    public void ExposeToClip_LampThatClipsEveryChannel_IsABound(string name)
    {
        VirtualBody body = JobBodies.Body(name);
        JobShot shot = Shot(body, new JobScene(body.Layout(), -3).With(new PixelRectangle(320, 160, 160, 160), 7, SceneColour.Neutral), 0, "lamp.dng");

        FrameDebrief frame = Assert.Single(Debrief(name, shot).Frames);

        Assert.Null(frame.ExposeToClipEv);
        Assert.InRange(frame.ExposeToClipAtMostEv!.Value, JobTruth.HeadroomEv(body, shot, 7, SceneColour.Neutral), -0.1);
        Assert.Equal(0, frame.HeadroomLeftEv);
    }

    [Theory]
    [MemberData(nameof(JobBodies.Names), MemberType = typeof(JobBodies))]
    public void ShadowPercent_DeepShadow_IsTheScenes(string name)
    {
        VirtualBody body = JobBodies.Body(name);
        JobShot shot = Shot(body, Wall(body), -0.5, "wall.dng");

        FrameDebrief frame = Assert.Single(Debrief(name, shot).Frames);

        Assert.Equal(JobTruth.SunkPercent(body, shot, 10), frame.ShadowPercent.Snr10, ShadowTolerancePercent);
        Assert.Equal(JobTruth.SunkPercent(body, shot, 4), frame.ShadowPercent.Snr4, ShadowTolerancePercent);
    }

    [Fact]
    public void Previews_ThatLie_AreFound()
    {
        VirtualBody body = JobBodies.Body("well");
        PreviewLook hard = new() { Name = "hard", ClipEv = 1.2 };
        PreviewLook soft = new() { Name = "soft", ClipEv = 5, MiddleGreyCode = 90 };
        JobShot held = Shot(body, Wall(body), -0.3, "held.dng");
        JobShot gone = Shot(body, Wall(body), 0.9, "gone.dng", 2);

        DayDebrief day = Debrief(
            "well",
            held with { File = "1-held-hard.dng", Look = hard },
            held with { File = "2-held-soft.dng", Look = soft },
            gone with { File = "3-gone-soft.dng", Look = soft },
            held with { File = "4-none.dng", Look = null });

        Assert.Equal([true, false, false, null], day.Frames.Select(f => f.PreviewBlewRawHeld));
        Assert.Equal([false, false, true, null], day.Frames.Select(f => f.PreviewHidClipped));
    }
}
