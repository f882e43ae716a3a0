using SensorLab.Simulation.Rehearsals;
using static SensorLab.FlawMatrix.Foreign.ForeignScene;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>Sensors whose photosites are not all alike by design, or whose readout is another for bright light.</summary>
internal static class ForeignReadouts
{
    private const int FocusRows = 12;
    private const int FocusColumns = 8;

    /// <summary>Share of saturation from which the second readout is used.</summary>
    private const double SecondFrom = 0.2;

    /// <summary>Of a photosite's own noise, from frame to frame.</summary>
    private const double ShareKept = 0.5;

    /// <summary>Standard deviation of the logarithm of photosites' own noise.</summary>
    private const double LogarithmScatter = 0.5;

    public static IReadOnlyList<ForeignFlaw> All { get; } =
    [
        new("focus photosites", "every eighth photosite of every twelfth row is masked to a part (share of the light lost)", ["target-textured", "pixels-hot"], [0.3, 0.6], scene => frame => WithEffect(frame, (codes, layout) =>
        {
            Random own = scene.Own(frame);
            double black = scene.Plan.Camera.Body.BlackLevelDn;
            for (int y = layout.ActiveArea.Y + 5; y < layout.ActiveArea.Bottom; y += FocusRows)
            {
                for (int x = layout.ActiveArea.X + 2; x < layout.ActiveArea.Right; x += FocusColumns)
                {
                    ref ushort code = ref codes[(y * layout.WidthPixels) + x];
                    code = (ushort)Math.Clamp(Math.Floor(code - (scene.Size * Math.Max(0, code - black)) + own.NextDouble()), 0, scene.Largest);
                }
            }
        })),
        new("wave", "the response runs ahead of the light below half of saturation and behind it above (relative, times a sine of the share over 2π)", ["response-nonlinear", "light-drift", "model-rejected"], [0.01, 0.05], scene =>
            frame => scene.WithSignals(frame, (_, _, share) => share + (scene.Size * Math.Sin(2 * Math.PI * share) / (2 * Math.PI)))),
        new("noise of every pixel's own", "photosites are read with noise of their own, logarithms of which scatter by a half (DN, on top, the root of the mean square)", ["model-rejected", "pixels-hot"], [0.5, 2], scene =>
        {
            double[] noise = [.. Enumerable.Range(0, (int)scene.Layout.ActiveArea.Area).Select(_ => scene.Size * Math.Exp((LogarithmScatter * Normal(scene.Shared)) - (LogarithmScatter * LogarithmScatter)))];
            return frame =>
            {
                Random own = scene.Own(frame);
                return scene.WithCodes(frame, (x, y, code) => code >= scene.Largest ? code : Math.Floor(code + (noise[(y * scene.Layout.ActiveArea.Width) + x] * Normal(own)) + own.NextDouble()));
            };
        })
        {
            Recorded = (truth, size, _) => ForeignFlaw.WithNoise(truth, double.Hypot(size, Math.Sqrt(1 / 6.0))),
        },
        new("photosites wander", "each photosite keeps half of its own noise from frame to frame (DN, on top)", ["model-rejected", "pixels-hot", "black-drift"], [0.5, 2], scene =>
        {
            double[] now = new double[scene.Layout.ActiveArea.Area];
            Dictionary<int, double[]> of = [];
            foreach (PlannedFrame frame in scene.Plan.Frames.OrderBy(f => f.Number))
            {
                now = [.. now.Select(n => (ShareKept * n) + (scene.Size * Math.Sqrt(1 - (ShareKept * ShareKept)) * Normal(scene.Shared)))];
                of[frame.Number] = now;
            }

            return frame =>
            {
                Random own = scene.Own(frame);
                return scene.WithCodes(frame, (x, y, code) => code >= scene.Largest ? code : Math.Floor(code + of[frame.Number][(y * scene.Layout.ActiveArea.Width) + x] + own.NextDouble()));
            };
        })
        {
            // What a pair of frames shares is pattern to it, what it does not is noise.
            Recorded = (truth, size, _) => ForeignFlaw.WithPattern(ForeignFlaw.WithNoise(truth, double.Hypot(size * Math.Sqrt(1 - ShareKept), Math.Sqrt(1 / 6.0))), size * Math.Sqrt(ShareKept)),
        },
        new("two readouts", "a fifth of saturation and brighter is read with more noise (DN, on top)", ["model-rejected"], [1, 5, 20], scene => frame =>
        {
            Random own = scene.Own(frame);
            double black = scene.Plan.Camera.Body.BlackLevelDn;
            double from = black + (SecondFrom * scene.Plan.Camera.Body.FullWellElectron / frame.Exposure.Setting.GainElectronPerDn);
            return scene.WithCodes(frame, (_, _, code) => code >= scene.Largest || code < from ? code : Math.Floor(code + (scene.Size * Normal(own)) + own.NextDouble()));
        }),
    ];
}
