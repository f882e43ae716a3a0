using SensorLab.Frames;
using SensorLab.Simulation.Rehearsals;
using static SensorLab.FlawMatrix.Foreign.ForeignScene;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>Sensors of other kinds than the catalogue's.</summary>
internal static class ForeignSensors
{
    /// <summary>Share of saturation half a stop below it.</summary>
    private const double TopHalfStop = 0.7071;

    /// <summary>Charge that a particle leaves in a photosite on the mean, in electrons.</summary>
    private const double ParticleElectron = 1000;

    public static IReadOnlyList<ForeignFlaw> All { get; } =
    [
        new("warm pixels", "a hundredth of the photosites with dark current of their own, shot noise included (electrons a second, on the mean)", ["pixels-hot", "dark-current"], [10, 1000, 100000], scene => Warm(scene, 0.01)),
        new("dark current of every pixel's own", "a skewed distribution of it, shot noise included (electrons a second, on the mean)", ["dark-current", "pixels-hot", "model-rejected"], [0.1, 10, 100], scene => Warm(scene, 1)),
        new("blinking pixels", "two hundred photosites that are brighter in every second frame or so (DN)", ["pixels-hot", "model-rejected", "raw-filtered", "noise-banded"], [2, 20, 200], Blinking),
        new("correlated rows", "row noise that the next row shares to a half (DN)", ["noise-banded", "shadow-banded", "light-banded"], [0.05, 0.5, 5], CorrelatedRows) { Recorded = (truth, size, _) => ForeignFlaw.WithNoise(truth, size, DitherDn(size)) },
        new("pickup", "a sine over the rows, of random phase, in every frame (DN)", ["noise-banded", "shadow-banded", "light-banded"], [0.05, 0.5, 5], scene =>
            frame =>
            {
                double phase = 2 * Math.PI * scene.Own(frame).NextDouble();
                return scene.WithCodes(frame, (_, y, code) => Dithered(code + (scene.Size * Math.Sin((2 * Math.PI * y / 23) + phase)), y));
            }),
        new("black walks", "black takes a random step from frame to frame (DN)", ["black-drift"], [0.01, 0.1, 1], BlackWalks),
        new("black follows light", "black sinks with the frame's own mean (DN at saturation)", ["black-drift", "response-nonlinear", "dark-lit"], [0.3, 3, 30], scene =>
            frame => frame with { Exposure = frame.Exposure with { BlackShiftDn = -scene.Size * Math.Min(1, frame.Exposure.LightElectron / scene.Plan.Camera.Body.FullWellElectron) } }),
        new("cubic response", "what is missing grows with the cube of the signal (relative at saturation)", ["response-nonlinear"], [0.005, 0.05, 0.2], scene => Bent(scene, s => s * (1 - (scene.Size * s * s)))) { SaturationFactor = size => 1 - size },
        new("knee", "above four fifths of saturation the response is flatter (relative slope missing)", ["response-nonlinear", "raw-companded", "gain-digital"], [0.05, 0.3, 0.7], scene =>
            Bent(scene, s => s < 0.8 ? s : 0.8 + ((s - 0.8) * (1 - scene.Size)))) { SaturationFactor = size => 1 - (0.2 * size) },
        new("late knee", "over the top half stop the response flattens smoothly (share of the signal missing at saturation)", ["response-nonlinear"], [0.01, 0.03], scene =>
            Bent(scene, s => s < TopHalfStop ? s : s * (1 - (scene.Size * Square((s - TopHalfStop) / (1 - TopHalfStop))))))
        {
            SaturationFactor = size => 1 - size,
            Terms = new() { AboveToleranceEv = 0 },
        },
        new("two converters", "from a fifth of saturation on a second converter counts, whose slope is another (relative)", ["response-nonlinear", "model-rejected"], [0.001, 0.004, 0.02], scene =>
            Bent(scene, s => s < 0.2 ? s : s * (1 - scene.Size)))
        {
            SaturationFactor = size => 1 - size,
            Terms = new() { AboveToleranceEv = 0 },
        },
        new("uneven wells", "wells hold 0.9 of the body's on the mean and scatter by a fiftieth from pixel to pixel, behind a response that is bent (relative at saturation)", ["response-nonlinear"], [0.001, 0.08], UnevenWells)
        {
            SaturationFactor = size => 0.9 * (1 - (0.9 * size)),
            AboveShiftEv = _ => Math.Log2(0.9),
            Terms = new() { AboveToleranceEv = 0 },
        },
        new("toe", "dim signals lose a fixed count (electrons)", ["dark-lit", "black-drift", "response-nonlinear", "exposure-inexact", "light-drift"], [0.5, 5, 50], scene =>
            frame => IsLit(frame) ? Dimmed(frame, frame.Exposure.LightElectron / (frame.Exposure.LightElectron + scene.Size)) : frame),
        new("excess noise", "lit pixels scatter more than photons do, with the signal's square (relative)", ["model-rejected"], [0.0005, 0.003, 0.02], scene =>
            frame =>
            {
                Random own = scene.Own(frame);
                double black = frame.Exposure.Setting.GainElectronPerDn > 0 ? scene.Plan.Camera.Body.BlackLevelDn : 0;
                return scene.WithCodes(frame, (_, _, code) => code + (code < scene.Largest ? (code - black) * scene.Size * Normal(own) : 0));
            }),
        new("uneven steps", "every second code of the converter is wider than its neighbour (share of a step)", ["model-rejected"], [0.05, 0.1], scene => UnevenSteps(scene, k => k % 2 == 0 ? 0 : scene.Size)),
        new("subranges", "the converter's ranges of 64 codes have slopes that are too steep and too flat by turns (relative)", ["model-rejected"], [0.01, 0.1], scene => frame => scene.WithCodes(frame, (x, y, code) =>
        {
            // Black stays where it is, or its truth would be another.
            double moved = SubrangeCodes(code) - SubrangeCodes(scene.Plan.Camera.Body.BlackLevelDn);
            return code >= scene.Largest ? code : Dithered(code + (scene.Size * moved), (31 * y) + x);
        })),
        new("missing codes", "every sixteenth code of the converter is missing (1)", ["model-rejected", "gain-digital", "raw-companded"], [1], scene => UnevenSteps(scene, k => k % 16 == 0 ? 1 : 0)),
        new("noisy lamp", "a lamp whose light differs from row to row of a frame and from pixel to pixel (relative)", ["model-rejected", "light-banded", "noise-banded"], [0.002, 0.01], scene => frame =>
        {
            Random own = scene.Own(frame);
            double black = scene.Plan.Camera.Body.BlackLevelDn;
            double[] rows = [.. Enumerable.Range(0, scene.Layout.ActiveArea.Height).Select(_ => scene.Size * Normal(own) / 2)];
            return scene.WithCodes(frame, (_, y, code) => code >= scene.Largest || !IsLit(frame) ? code : Math.Floor(code + ((code - black) * (rows[y] + (scene.Size * Normal(own)))) + own.NextDouble()));
        }),
        new("two channels multiplied", "red and blue are multiplied, by different factors (of red, less 1; blue has twice that)", ["channel-scaled"], [0.03, 0.12], scene => frame => WithEffect(frame, (codes, layout) =>
        {
            for (int y = layout.ActiveArea.Y; y < layout.ActiveArea.Bottom; y++)
            {
                for (int x = layout.ActiveArea.X; x < layout.ActiveArea.Right; x++)
                {
                    ref ushort code = ref codes[(y * layout.WidthPixels) + x];
                    double factor = layout.ColourFilterArray.ChannelAt(y - layout.ActiveArea.Y, x - layout.ActiveArea.X) switch
                    {
                        SensorChannel.R => 1 + scene.Size,
                        SensorChannel.B => 1 + (2 * scene.Size),
                        _ => 1,
                    };
                    double black = Math.Round(scene.Plan.Camera.Body.BlackLevelDn);
                    code = (ushort)Math.Clamp(Math.Round(black + ((code - black) * factor)), 0, scene.Largest);
                }
            }
        })) { Terms = new() { IsOwnLaw = channel => channel is "R" or "B" } },
        new("bulge", "between darkness and saturation the response runs ahead of the light (relative, times share and what is left)", ["response-nonlinear", "light-drift"], [0.01, 0.05, 0.2], scene =>
            Bent(scene, s => s * (1 + (scene.Size * s * (1 - s))))),
        new("converter's step", "codes from half the range on are higher (DN)", ["response-nonlinear", "model-rejected"], [1, 4, 16], scene => frame =>
            scene.WithCodes(frame, (_, _, code) => code < scene.Largest / 2 || code >= scene.Largest ? code : code + scene.Size))
        {
            Recorded = (truth, size, most) => truth with { SaturationDn = Math.Min(truth.SaturationDn + size, most) },
        },
        new("particles", "radiation leaves tracks of one to six photosites, a thousand electrons each on the mean (a frame)", ["pixels-hot", "model-rejected", "raw-filtered", "noise-banded", "light-flicker"], [0.2, 2, 20], scene => frame =>
        {
            Random own = scene.Own(frame);
            Dictionary<(int X, int Y), double> charges = [];
            double hits = Poisson(own, scene.Size);
            for (int hit = 0; hit < hits; hit++)
            {
                int x = own.Next(scene.Layout.ActiveArea.Width);
                int y = own.Next(scene.Layout.ActiveArea.Height);
                int slope = own.Next(-1, 2);
                int length = own.Next(1, 7);
                for (int i = 0; i < length; i++)
                {
                    charges[(x + i, y + (i * slope))] = -ParticleElectron * Math.Log(1 - own.NextDouble());
                }
            }

            double gain = frame.Exposure.Setting.GainElectronPerDn;
            return charges.Count == 0 ? frame : scene.WithCodes(frame, (x, y, code) => charges.TryGetValue((x, y), out double charge) ? code + (charge / gain) : code);
        }),
        new("two amplifiers", "the two halves of the sensor have different amplifiers (relative)", ["target-uneven", "target-textured"], [0.002, 0.05], scene =>
            frame => scene.WithCodes(frame, (x, y, code) => x < scene.Layout.ActiveArea.Width / 2 || code >= scene.Largest ? code : Dithered(code + (scene.Size * (code - scene.Plan.Camera.Body.BlackLevelDn)), (31 * x) + y))),
    ];

    /// <summary>Codes whose edges are moved inwards: of the values there a share goes to the neighbour on either side.</summary>
    private static Func<PlannedFrame, PlannedFrame> UnevenSteps(ForeignScene scene, Func<int, double> shareLost) => frame =>
    {
        Random own = scene.Own(frame);
        return scene.WithCodes(frame, (_, _, code) => code >= scene.Largest || own.NextDouble() >= shareLost((int)code) ? code : code + (own.Next(2) == 0 ? 1 : -1));
    };

    /// <summary>By how much slopes of 1 too much and 1 too little, by turns over 64 codes, move a code.</summary>
    private static double SubrangeCodes(double code) => Math.Abs((code % 128) - 64);

    private static Func<PlannedFrame, PlannedFrame> Warm(ForeignScene scene, double share)
    {
        Dictionary<int, double> sites = [];
        for (int i = 0; i < scene.Layout.ActiveArea.Area; i++)
        {
            if (scene.Shared.NextDouble() < share)
            {
                sites[i] = scene.Size * -Math.Log(1 - scene.Shared.NextDouble());
            }
        }

        int width = scene.Layout.ActiveArea.Width;
        return frame =>
        {
            Random own = scene.Own(frame);
            return scene.WithCodes(frame, (x, y, code) =>
            {
                if (!sites.TryGetValue((y * width) + x, out double rate))
                {
                    return code;
                }

                double electrons = Poisson(own, rate * frame.Exposure.ExposureSeconds);
                return Math.Floor(code + (electrons / frame.Exposure.Setting.GainElectronPerDn) + own.NextDouble());
            });
        };
    }

    private static Func<PlannedFrame, PlannedFrame> Blinking(ForeignScene scene)
    {
        HashSet<int> sites = [.. Enumerable.Range(0, 200).Select(_ => scene.Shared.Next((int)scene.Layout.ActiveArea.Area))];
        int width = scene.Layout.ActiveArea.Width;
        return frame =>
        {
            Random own = scene.Own(frame);
            return scene.WithCodes(frame, (x, y, code) => sites.Contains((y * width) + x) && own.NextDouble() < 0.5 ? code + scene.Size : code);
        };
    }

    private static Func<PlannedFrame, PlannedFrame> CorrelatedRows(ForeignScene scene) => frame =>
    {
        Random own = scene.Own(frame);
        double[] rows = new double[scene.Layout.ActiveArea.Height];
        for (int y = 0; y < rows.Length; y++)
        {
            rows[y] = ((y > 0 ? rows[y - 1] : 0) * 0.5) + (scene.Size * Math.Sqrt(0.75) * Normal(own));
        }

        return scene.WithCodes(frame, (x, y, code) => Dithered(code + rows[y], (37 * y) + x));
    };

    private static Func<PlannedFrame, PlannedFrame> BlackWalks(ForeignScene scene)
    {
        double[] walk = new double[scene.Plan.Frames.Max(f => f.Number) + 1];
        for (int i = 1; i < walk.Length; i++)
        {
            walk[i] = walk[i - 1] + (scene.Size * Normal(scene.Shared));
        }

        double dark = scene.Plan.Frames.Where(f => f.Role == FrameRole.Dark).Average(f => walk[f.Number]);
        return frame => frame with { Exposure = frame.Exposure with { BlackShiftDn = walk[frame.Number] - dark } };
    }

    private static Func<PlannedFrame, PlannedFrame> UnevenWells(ForeignScene scene)
    {
        double black = scene.Plan.Camera.Body.BlackLevelDn;
        double[] wells = [.. Enumerable.Range(0, (int)scene.Layout.ActiveArea.Area).Select(_ => Math.Min(0.99, 0.9 * (1 + (0.02 * Normal(scene.Shared)))))];
        int width = scene.Layout.ActiveArea.Width;
        return frame =>
        {
            double top = Math.Min(scene.Largest - black, scene.Plan.Camera.Body.FullWellElectron / frame.Exposure.Setting.GainElectronPerDn);
            double read = frame.Exposure.Setting.ReadNoiseElectron / frame.Exposure.Setting.GainElectronPerDn;
            Random own = scene.Own(frame);
            return scene.WithCodes(frame, (x, y, code) =>
            {
                double held = (code - black) / top;
                double well = wells[(y * width) + x];
                double shown = held < well ? held : well + (read * Normal(own) / top);
                return code <= black || !IsLit(frame) ? code : Dithered(black + (top * shown * (1 - (scene.Size * shown))), (31 * y) + x);
            });
        };
    }

    private static double Square(double value) => value * value;

    private static Func<PlannedFrame, PlannedFrame> Bent(ForeignScene scene, Func<double, double> response) =>
        frame => scene.WithSignals(frame, (_, _, share) => response(share));
}
