using SensorLab.Frames;
using SensorLab.Simulation.Rehearsals;
using static SensorLab.FlawMatrix.Foreign.ForeignScene;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>What goes wrong at the lamp: a cap, a strap, a highlight, a curtain that bounces; and photosites or currents that go their own way.</summary>
internal static class ForeignAccidents
{
    private static readonly string[] OfFrames = ["light-flicker", "exposure-inexact", "light-stepped", "light-banded", "target-uneven", "metered-doubtful"];

    public static IReadOnlyList<ForeignFlaw> All { get; } =
    [
        new("curtain bounces", "at a five-hundredth and faster the frame's first twentieth gets more light (relative)", OfFrames, [0.05, 0.5], scene => frame =>
            IsLit(frame) && frame.Exposure.ExposureSeconds <= 0.002 ? scene.WithRows(frame, y => y < scene.Layout.ActiveArea.Height / 20 ? 1 + scene.Size : 1) : frame),
        new("strap", "one well-lit bracket frame has a corner covered (share of the light lost)", OfFrames, [0.1, 1], scene =>
        {
            PlannedFrame covered = OneOf(scene, FrameRole.Bracket);
            return frame => frame.Number != covered.Number ? frame : scene.Showing(frame, (x, y) => x + y < scene.Layout.ActiveArea.Width / 2 ? 1 - scene.Size : 1);
        }),
        new("capped bracket frame", "one well-lit bracket frame was shot with the cap on (1)", OfFrames, [1], scene => Capped(scene, FrameRole.Bracket)),
        new("capped metered frame", "one metered frame was shot with the cap on (1)", OfFrames, [1], scene => Capped(scene, FrameRole.Metered)),
        new("lit frame among the dark", "one dark frame saw the target (share of what saturates)", ["dark-lit", "black-drift"], [0.01, 0.3], scene =>
        {
            PlannedFrame lit = OneOf(scene, FrameRole.Dark);
            return frame => frame.Number != lit.Number ? frame : frame with { Exposure = frame.Exposure with { LightElectron = scene.Size * scene.Plan.Camera.Body.FullWellElectron } };
        }),
        new("highlight", "a spot of five photosites is thirty times as bright as the rest (1)", ["target-textured", "target-uneven", "pixels-hot"], [1], scene => frame =>
            IsLit(frame) ? scene.Showing(frame, (x, y) => double.Hypot(x - 31, y - 27) < 2.5 ? 30 : 1) : frame),
        new("stuck photosites", "photosites stand at the converter's last code in every frame (photosites)", ["pixels-hot"], [1, 30], scene =>
        {
            HashSet<int> sites = [.. Enumerable.Range(0, (int)scene.Size).Select(_ => scene.Shared.Next((int)scene.Layout.ActiveArea.Area))];
            return frame => scene.WithCodes(frame, (x, y, code) => sites.Contains((y * scene.Layout.ActiveArea.Width) + x) ? scene.Largest : code);
        }),
        new("herringbone", "a slanted wave over the frame, of random phase, in every frame (DN)", ["noise-banded", "shadow-banded", "light-banded", "raw-filtered", "model-rejected"], [0.2, 2], scene => frame =>
        {
            Random own = scene.Own(frame);
            double phase = 2 * Math.PI * own.NextDouble();
            return scene.WithCodes(frame, (x, y, code) => code >= scene.Largest ? code : Math.Floor(code + (scene.Size * Math.Sqrt(2) * Math.Sin((2 * Math.PI * ((x / 7.3) + (y / 11.9))) + phase)) + own.NextDouble()));
        })
        {
            Recorded = (truth, size, _) => ForeignFlaw.WithNoise(truth, double.Hypot(size, Math.Sqrt(1 / 6.0))),
        },
    ];

    private static Func<PlannedFrame, PlannedFrame> Capped(ForeignScene scene, FrameRole role)
    {
        PlannedFrame capped = OneOf(scene, role);
        return frame => frame.Number == capped.Number ? Dimmed(frame, 0) : frame;
    }

    private static PlannedFrame OneOf(ForeignScene scene, FrameRole role)
    {
        PlannedFrame[] frames = [.. scene.Plan.Frames.Where(f => f.Role == role).OrderBy(f => f.Number)];
        return frames[frames.Length / 2];
    }
}
