using SensorLab.Frames;
using SensorLab.Simulation.Rehearsals;
using static SensorLab.FlawMatrix.Foreign.ForeignScene;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>Other laws the other way round: what rises there sinks here, and what is noisy there is quiet. A check that looks one way is blind the other.</summary>
internal static class ForeignMirrors
{
    private const double Bend = 0.8;

    private static readonly string[] OfBlack = ["black-drift", "dark-lit", "dark-current", "field-glowing", "response-nonlinear"];
    private static readonly string[] OfNoise = ["model-rejected", "noise-banded", "shadow-banded", "black-drift", "pixels-hot", "raw-filtered"];
    private static readonly string[] OfLight = ["light-drift", "exposure-inexact", "light-flicker", "light-stepped"];

    public static IReadOnlyList<ForeignFlaw> All { get; } =
    [
        new("steeper top", "above four fifths of saturation the response is steeper (relative slope on top)", ["response-nonlinear", "model-rejected"], [0.05, 0.3, 1], scene =>
            frame => scene.WithSignals(frame, (_, _, s) => s < Bend ? s : Bend + ((s - Bend) * (1 + scene.Size))))
        {
            SaturationFactor = size => 1 + ((1 - Bend) * size),

            // Where the converter ends first, it is reached with less light.
            Terms = new() { AboveToleranceEv = 0.16 },
        },
        new("expanding", "what is on top grows with the cube of the signal (relative at saturation)", ["response-nonlinear", "model-rejected"], [0.005, 0.05], scene =>
            frame => scene.WithSignals(frame, (_, _, s) => s * (1 + (scene.Size * s * s))))
        {
            SaturationFactor = size => 1 + size,

            // The converter ends with as much less light.
            Terms = new() { AboveToleranceEv = 0.1 },
        },
        new("dark sinks", "black sinks with the exposure time, dark and lit alike (DN a second)", OfBlack, [0.5, 5], scene => frame => Shifted(frame, -scene.Size * frame.Exposure.ExposureSeconds)),
        new("black of long times lower", "black of frames of a tenth of a second and longer lies lower, dark and lit alike (DN)", [.. OfBlack, "exposure-inexact"], [0.5, 5], scene => frame => frame.Exposure.ExposureSeconds < ForeignHistories.LongSeconds ? frame : Shifted(frame, -scene.Size)),
        new("quiet darks", "dark frames' codes lie nearer to black (share that is left)", OfNoise, [0.5], scene => frame => IsLit(frame) ? frame : Quieter(scene, frame)),
        new("one quiet dark frame", "one dark frame's codes lie nearer to black (share that is left)", OfNoise, [0.5], scene =>
        {
            PlannedFrame quiet = ForeignModes.SecondDark(scene);
            return frame => frame.Number == quiet.Number ? Quieter(scene, frame) : frame;
        }),
        new("smoothed when lit", "lit frames alone are smoothed over a colour's neighbours (weight)", OfNoise, [0.02, 0.3], scene => frame => IsLit(frame) ? Smoothed(scene, frame, 0) : frame),
        new("smoothed highlights", "above a quarter of the range photosites are smoothed over a colour's neighbours (weight)", OfNoise, [0.05, 0.3], scene => frame => Smoothed(scene, frame, scene.Largest / 4.0)),
        new("sensor cools", "dark current sinks to nothing in the last frame, shot noise included (DN a second in the first)", [.. OfBlack, .. OfLight], [1, 10], scene => frame =>
        {
            Random own = scene.Own(frame);
            double gain = frame.Exposure.Setting.GainElectronPerDn;
            double mean = scene.Size * (1 - scene.Place(frame)) * frame.Exposure.ExposureSeconds * gain;
            return scene.WithCodes(frame, (_, _, code) => Math.Floor(code + (Poisson(own, mean) / gain) + own.NextDouble()));
        }),
        new("lamp warms up", "light grows to its end value over the bracket (relative)", ["light-drift"], [0.03, 0.2], scene => frame => frame.Role == FrameRole.Bracket ? Dimmed(frame, 1 - (scene.Size * Math.Exp(-6 * scene.Place(frame)))) : frame),
        new("sinking corner", "black sinks beside a corner with the exposure time, dark and lit alike (DN a second at the corner)", OfBlack, [4, 40], scene => frame => scene.WithCodes(frame, (x, y, code) =>
        {
            double far = double.Hypot(x / (double)scene.Layout.ActiveArea.Width, y / (double)scene.Layout.ActiveArea.Height);
            return code >= scene.Largest ? code : code - Math.Round(scene.Size * frame.Exposure.ExposureSeconds * Math.Exp(-8 * far));
        })),
    ];

    private static PlannedFrame Quieter(ForeignScene scene, PlannedFrame frame)
    {
        Random own = scene.Own(frame);
        double black = scene.Plan.Camera.Body.BlackLevelDn;
        return scene.WithCodes(frame, (_, _, code) => Math.Floor(black + ((code - black) * scene.Size) + own.NextDouble()));
    }

    private static PlannedFrame Smoothed(ForeignScene scene, PlannedFrame frame, double fromDn)
    {
        Random own = scene.Own(frame);
        return ForeignFiles.WithNeighbours(scene, frame, 0, (code, around) => code >= scene.Largest || code < fromDn ? code : Math.Floor(code + (scene.Size * (around.Average() - code)) + own.NextDouble()));
    }
}
