using SensorLab.Frames;
using static SensorLab.FlawMatrix.Foreign.ForeignScene;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>Frames that are not what their light alone makes of them: they remember the one before, or know how long they took.</summary>
internal static class ForeignHistories
{
    private static readonly string[] OfLight = ["exposure-inexact", "light-flicker", "light-drift", "light-stepped", "response-nonlinear"];

    private static readonly string[] OfBlack = ["black-drift", "dark-lit", "dark-current"];

    /// <summary>Seconds from which a readout is another.</summary>
    public const double LongSeconds = 0.1;

    public static IReadOnlyList<ForeignFlaw> All { get; } =
    [
        new("image lag", "every frame keeps a share of the light of the frame before it (relative)", [.. OfLight, .. OfBlack], [0.0003, 0.003, 0.03], scene =>
        {
            double full = scene.Plan.Camera.Body.FullWellElectron;
            var light = scene.Plan.Frames.ToDictionary(f => f.Number, f => Math.Min(full, f.Exposure.LightElectron));
            return frame => frame with
            {
                Exposure = frame.Exposure with { LightElectron = frame.Exposure.LightElectron + (scene.Size * light.GetValueOrDefault(frame.Number - 1)) },
            };
        }),
        new("nominal times", "shutters run by powers of a third of a stop, and files say the times that are engraved (1)", OfLight, [1], scene => frame =>
            frame.Role == FrameRole.Metered ? frame : Dimmed(frame, Math.Pow(2, Math.Round(3 * Math.Log2(frame.Exposure.ExposureSeconds)) / 3) / frame.Exposure.ExposureSeconds)),
        new("black of long times", "black of frames of a tenth of a second and longer lies higher, dark and lit alike (DN)", [.. OfBlack, "response-nonlinear", "exposure-inexact"], [0.05, 0.5, 5], scene => frame =>
            frame.Exposure.ExposureSeconds < LongSeconds ? frame : Shifted(frame, scene.Size)),
        new("sensor warms", "dark current grows from nothing in the first frame, shot noise included (DN a second in the last)", [.. OfBlack, .. OfLight], [0.1, 1, 10], scene => frame =>
        {
            Random own = scene.Own(frame);
            double gain = frame.Exposure.Setting.GainElectronPerDn;
            double mean = scene.Size * scene.Place(frame) * frame.Exposure.ExposureSeconds * gain;
            return scene.WithCodes(frame, (_, _, code) => Math.Floor(code + (Poisson(own, mean) / gain) + own.NextDouble()));
        }),
        new("gain warms", "from the first frame to the last codes grow away from black (relative)", [.. OfLight, "model-rejected"], [0.002, 0.01], scene => frame =>
            scene.WithCodes(frame, (x, y, code) => code >= scene.Largest ? code : Dithered(code + ((scene.Place(frame) - 0.5) * scene.Size * (code - scene.Plan.Camera.Body.BlackLevelDn)), (31 * y) + x))),
        new("shaded black", "black rises from the frame's top to its bottom, in all frames alike (DN)", ["black-drift", "target-uneven", "noise-banded", "dark-lit"], [5, 50], scene =>
        {
            // Whole codes, and the same for all channels of a repeat: nothing but the shading is changed.
            int repeat = scene.Layout.ColourFilterArray.Rows;
            int repeats = scene.Layout.ActiveArea.Height / repeat;
            double[] shades = [.. Enumerable.Range(0, repeats).Select(i => Math.Round(scene.Size * ((i / (repeats - 1.0)) - 0.5)))];
            return frame => scene.WithCodes(frame, (_, y, code) => code >= scene.Largest ? code : code + shades[Math.Min(y / repeat, repeats - 1)]);
        }),
    ];
}
