using SensorLab.Confirms;
using SensorLab.Frames;
using SensorLab.Retest.Confirm;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Scenes;
using SensorLab.TestData;
using SensorLab.Tests.Debriefs;

namespace SensorLab.Tests.Confirms;

/// <summary>Whether everyday frames tell that highlights bend otherwise than the profile says.</summary>
public sealed class ChannelRatioTests(JobBodies bodies) : IClassFixture<JobBodies>
{
    [Theory]
    [MemberData(nameof(JobBodies.Names), MemberType = typeof(JobBodies))]
    public async Task Confirm_TheSameBodysWalls_KeepTheirRatioUpToTheClip(string name)
    {
        ConfirmCheck[] checks = await ChecksAsync(name, JobBodies.Body(name));

        Assert.NotEmpty(checks);
        Assert.All(checks, c => Assert.Equal(ConfirmVerdict.Consistent, c.Verdict));
    }

    [Fact]
    public async Task Confirm_ABodyThatBendsMore_IsAskedAbout()
    {
        VirtualBody body = JobBodies.Body("bent");

        ConfirmCheck[] checks = await ChecksAsync("bent", body with { CompressionPercent = body.CompressionPercent + 20 });

        Assert.Contains(checks, c => c.Verdict == ConfirmVerdict.Undecided && c.Found.Value < 0.9);
    }

    [Fact]
    public async Task Confirm_FewFrames_TellNothing() => Assert.Empty(await ChecksAsync("well", JobBodies.Body("well"), frames: 4));

    private async Task<ConfirmCheck[]> ChecksAsync(string name, VirtualBody body, int frames = 8)
    {
        using var folder = new TemporaryFolder();
        double clipEv = JobTruth.HeadroomEv(body, Shot(body, new JobScene(body.Layout(), 0), 0, 1), 0, SceneColour.Neutral);
        JobWriter.Write(body, [.. Enumerable.Range(1, frames).Select(i => Shot(body, Walls(body, clipEv, i), -0.03 * i, i))], folder.Path);
        (ConfirmResult result, _) = await ConfirmRun.RunAsync(bodies.Profile(name), folder.Path, 2, null, TestContext.Current.CancellationToken);
        return [.. result.Checks.Where(c => c.Check == "ratioNearClip")];
    }

    private static JobShot Shot(VirtualBody body, JobScene scene, double exposureEv, int number) =>
        new() { File = $"P{number:0000}.dng", Scene = scene, Iso = body.IsoSettings[0].Iso, ExposureEv = exposureEv, Number = (ulong)number };

    // A sunlit wall of green stones over a shaded one, in sizes that no block of photosites is made for.
    private static JobScene Walls(VirtualBody body, double clipEv, int number)
    {
        var scene = new JobScene(body.Layout(), -3);
        int side = 20 + number;
        for (int y = 4; y < 600; y += side)
        {
            for (int x = 4; x < 920; x += side)
            {
                double shade = y < 300 ? 0 : -1.4;
                scene.With(new PixelRectangle(x, y, side, side), clipEv + shade - (0.2 * (((x / side) + (2 * (y / side))) % 4)), new SceneColour(0.4, 0.4));
            }
        }

        return scene;
    }
}
