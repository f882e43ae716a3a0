using SensorLab.Frames;
using SensorLab.Simulation.Rehearsals;
using static SensorLab.FlawMatrix.Foreign.ForeignScene;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>Frames that are read in another mode than the rest, and noise that is not normal.</summary>
internal static class ForeignModes
{
    private static readonly string[] OfNoise = ["model-rejected", "noise-banded", "shadow-banded", "black-drift", "pixels-hot"];

    public static IReadOnlyList<ForeignFlaw> All { get; } =
    [
        new("fewer bits when lit", "lit frames alone are recorded in fewer bits: their codes are rounded to multiples (DN)", ["gain-digital", "noise-below-step", "raw-companded", "model-rejected", "depth-mixed"], [2, 4, 16], scene => frame => IsLit(frame) ? Coarser(scene, frame) : frame),
        new("fewer bits in the dark", "dark frames alone are recorded in fewer bits: their codes are rounded to multiples (DN)", ["gain-digital", "noise-below-step", "raw-companded", "model-rejected", "black-clipped", "depth-mixed"], [2, 4, 16], scene => frame => IsLit(frame) ? frame : Coarser(scene, frame)),
        new("black of lit frames", "all lit frames' black lies higher than the dark frames' (DN)", ["black-drift", "dark-lit", "response-nonlinear", "exposure-inexact"], [0.05, 0.2, 0.5, 5, 50], scene => frame =>
            IsLit(frame) ? Shifted(frame, scene.Size) : frame),
        new("odd level", "all frames of one well-lit level at another light than said (relative)", ["exposure-inexact", "response-nonlinear", "light-flicker"], [0.01, 0.1, 0.5], scene =>
        {
            double[] times = [.. scene.Plan.Frames.Where(f => f.Role == FrameRole.Bracket).Select(f => f.Exposure.ExposureSeconds).Distinct().Order()];
            double seconds = times[times.Length / 2];
            return frame => frame.Role == FrameRole.Bracket && frame.Exposure.ExposureSeconds == seconds ? Dimmed(frame, 1 - scene.Size) : frame;
        }),
        new("heavy-tailed noise", "noise of the readout falls off exponentially on both sides (DN, on top)", OfNoise, [0.5, 2, 8], scene => frame =>
        {
            Random own = scene.Own(frame);
            return scene.WithCodes(frame, (_, _, code) => code >= scene.Largest ? code : Math.Floor(code + (scene.Size * Laplace(own)) + own.NextDouble()));
        })
        {
            Recorded = Noisier,
        },
        new("rows of their own noise", "rows are read with noise of their own, logarithms of which scatter by a half (DN, on top, the root of the mean square)", OfNoise, [0.5, 2], scene =>
        {
            double[] noise = [.. Enumerable.Range(0, 1 + (scene.Layout.ActiveArea.Height / scene.Layout.ColourFilterArray.Rows)).Select(_ => Math.Exp(0.5 * Normal(scene.Shared)))];
            double mean = Math.Sqrt(noise.Average(n => n * n));
            return frame =>
            {
                Random own = scene.Own(frame);
                return scene.WithCodes(frame, (_, y, code) => code >= scene.Largest ? code : Math.Floor(code + (scene.Size * noise[y / scene.Layout.ColourFilterArray.Rows] / mean * Normal(own)) + own.NextDouble()));
            };
        })
        {
            Recorded = Noisier,
        },
        new("noise to one side", "the noise of the readout falls towards one side of the frame, to half of the mean (DN, on top, the root of the mean square)", OfNoise, [0.5, 4], scene => frame =>
        {
            Random own = scene.Own(frame);
            double width = scene.Layout.ActiveArea.Width;
            return scene.WithCodes(frame, (x, _, code) => code >= scene.Largest ? code : Math.Floor(code + (scene.Size * (0.5 + ((x + 0.5) / width)) / Math.Sqrt(13 / 12.0) * Normal(own)) + own.NextDouble()));
        })
        {
            Recorded = Noisier,
        },
        new("one loud dark frame", "one dark frame is read with more noise (DN, on top)", OfNoise, [1, 10], scene =>
        {
            PlannedFrame loud = SecondDark(scene);
            return frame =>
            {
                Random own = scene.Own(frame);
                return frame.Number != loud.Number ? frame : scene.WithCodes(frame, (_, _, code) => Math.Floor(code + (scene.Size * Normal(own)) + own.NextDouble()));
            };
        }),
        new("one banded frame", "one dark frame has noise that rows share (DN)", OfNoise, [1, 10], scene =>
        {
            PlannedFrame loud = SecondDark(scene);
            return frame =>
            {
                Random own = scene.Own(frame);
                double[] rows = [.. Enumerable.Range(0, scene.Layout.ActiveArea.Height).Select(_ => scene.Size * Normal(own))];
                return frame.Number != loud.Number ? frame : scene.WithCodes(frame, (_, y, code) => Math.Floor(code + rows[y] + own.NextDouble()));
            };
        }),
        new("readout warms", "the readout's noise grows from nothing in the first frame (DN in the last, on top)", OfNoise, [1, 5], scene => frame =>
        {
            Random own = scene.Own(frame);
            double size = scene.Size * scene.Place(frame);
            return scene.WithCodes(frame, (_, _, code) => code >= scene.Largest ? code : Math.Floor(code + (size * Normal(own)) + own.NextDouble()));
        }),
    ];

    public static PlannedFrame SecondDark(ForeignScene scene) => scene.Plan.Frames.Where(f => f.Role == FrameRole.Dark).Skip(1).First();

    private static PlannedFrame Coarser(ForeignScene scene, PlannedFrame frame) =>
        scene.WithCodes(frame, (_, _, code) => code >= scene.Largest ? code : Math.Floor((code + (scene.Size / 2)) / scene.Size) * scene.Size);

    /// <summary>What is true with noise of a size on top, and what rounding it up by chance adds.</summary>
    private static IsoTruth Noisier(IsoTruth truth, double size, double mostDn) => ForeignFlaw.WithNoise(truth, double.Hypot(size, Math.Sqrt(1 / 6.0)));

    /// <summary>A number of a Laplace distribution of standard deviation 1.</summary>
    private static double Laplace(Random random)
    {
        double u = random.NextDouble() - 0.5;
        return -Math.Sign(u) * Math.Log(1 - (2 * Math.Abs(u))) / Math.Sqrt(2);
    }
}
