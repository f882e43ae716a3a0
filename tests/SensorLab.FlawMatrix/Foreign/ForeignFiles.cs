using SensorLab.Simulation.Rehearsals;
using static SensorLab.FlawMatrix.Foreign.ForeignScene;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>What makers do to the codes on their way into the file, other than the catalogue's ways.</summary>
internal static class ForeignFiles
{
    private const int MaskedColumns = 16;

    public static IReadOnlyList<ForeignFlaw> All { get; } =
    [
        new("square-root curve", "codes are rounded on a curve of square roots and the file does not say so (codes kept)", ["raw-companded"], [4000, 1000, 250], scene =>
            frame => scene.WithCodes(frame, (_, _, code) =>
            {
                double kept = Math.Round(Math.Sqrt(code / scene.Largest) * scene.Size) / scene.Size;
                return kept * kept * scene.Largest;
            })),
        new("strips of 16", "in a strip of 16 photosites codes are rounded to a 128th of their range, and the file does not say so (0 or 1)", ["raw-companded", "raw-filtered", "model-rejected", "gain-digital"], [1], Strips),
        new("three by three", "every photosite takes from its eight neighbours of any colour (weight)", ["raw-filtered"], [0.01, 0.1, 0.5], scene => frame => WithNeighbours(scene, frame, 1, (own, around) => own + (scene.Size * (around.Average() - own)))),
        new("full pixels push", "what a photosite holds pushes charge over to its colour's neighbours (share of a difference at saturation)", ["raw-filtered", "model-rejected", "response-nonlinear"], [0.005, 0.05], scene => frame =>
        {
            Random own = scene.Own(frame);
            double black = scene.Plan.Camera.Body.BlackLevelDn;
            double top = scene.Largest - black;
            return WithNeighbours(scene, frame, 0, (code, around) => code >= scene.Largest ? code : Math.Floor(code + (scene.Size * Math.Max(0, code - black) / top * (around.Average() - code)) + own.NextDouble()));
        }),
        new("median", "some photosites are replaced by the median of their colour's neighbours (share)", ["raw-filtered"], [0.02, 0.2, 1], scene => frame =>
        {
            Random own = scene.Own(frame);
            return WithNeighbours(scene, frame, 0, (code, around) => own.NextDouble() < scene.Size ? around.Append(code).Order().ElementAt(around.Length / 2) : code);
        }),
        new("stars eaten", "a photosite above all neighbours of its colour is cut to the highest (1)", ["raw-filtered", "pixels-hot", "model-rejected"], [1], scene => frame => WithNeighbours(scene, frame, 0, (own, around) => Math.Min(own, around.Max()))),
        new("smoothed shadows", "small differences from the neighbours are smoothed out, large ones kept (DN)", ["raw-filtered", "model-rejected", "black-drift"], [1, 4, 16], scene => frame =>
            WithNeighbours(scene, frame, 0, (own, around) => around.Append(own).Where(a => Math.Abs(a - own) <= scene.Size).Average())),
        new("black taken off", "a pedestal below black is taken off and what is negative cut to 0 (DN left)", ["black-clipped", "levels-declared"], [20, 2, 0], scene =>
        {
            double off = Math.Round(scene.Plan.Camera.Body.BlackLevelDn - scene.Size);
            return frame => scene.WithCodes(frame, (_, _, code) => code >= scene.Largest ? code : code - off);
        })
        {
            Recorded = (truth, size, _) => truth with { BlackLevelDn = truth.BlackLevelDn - Math.Round(truth.BlackLevelDn - size) },
        },
        new("push", "codes are multiplied and cut down to whole ones (factor)", ["gain-digital", "levels-declared"], [1.04, 1.7, 3], scene =>
        {
            double black = Math.Round(scene.Plan.Camera.Body.BlackLevelDn);
            return frame => scene.WithCodes(frame, (_, _, code) => Math.Floor(black + ((code - black) * scene.Size)));
        })
        {
            Recorded = Pushed,
        },
        new("pull", "codes are multiplied by less than one and rounded (factor)", ["gain-digital", "model-rejected", "raw-companded", "noise-below-step"], [0.9, 0.8, 0.5], scene =>
        {
            double black = Math.Round(scene.Plan.Camera.Body.BlackLevelDn);
            return frame => scene.WithCodes(frame, (_, _, code) => Math.Floor(black + ((code - black) * scene.Size) + 0.5));
        })
        {
            Recorded = Pulled,
        },
        new("clip wanders", "each frame is cut off at a code of its own, below the converter's last (DN, the standard deviation)", ["levels-declared", "response-nonlinear"], [1, 10, 100], scene => frame =>
        {
            double last = scene.Largest - Math.Abs(scene.Size * Normal(scene.Own(frame)));
            return scene.WithCodes(frame, (_, _, code) => Math.Min(code, Math.Round(last)));
        }),
        new("masked border", "the sixteen photosites at the left are masked, and the file does not say so (1)", ["target-uneven", "lines-dead", "target-textured"], [1], scene => frame =>
        {
            Random own = scene.Own(frame);
            double noise = frame.Exposure.Setting.ReadNoiseElectron / frame.Exposure.Setting.GainElectronPerDn;
            return scene.WithCodes(frame, (x, _, code) => x >= MaskedColumns ? code : scene.Plan.Camera.Body.BlackLevelDn + (noise * Normal(own)));
        }),
        new("dark frame taken off", "exposures of a tenth of a second and longer have a dark frame taken off and do not say so (1)", ["model-rejected", "dark-lit", "dark-current", "mode-mixed", "black-drift", "iso-disagrees"], [1], scene => frame =>
        {
            Random own = scene.Own(frame);
            double read = frame.Exposure.Setting.ReadNoiseElectron / frame.Exposure.Setting.GainElectronPerDn;
            return frame.Exposure.ExposureSeconds < 0.1 ? frame : scene.WithCodes(frame, (_, _, code) => code >= scene.Largest ? code : Math.Floor(code + (read * Normal(own)) + own.NextDouble()));
        }),
        new("shading taken out", "the file is divided by a map that lifts the corners (relative)", ["target-uneven", "raw-companded", "model-rejected"], [0.02, 0.2, 0.6], scene => frame => scene.WithCodes(frame, (x, y, code) =>
        {
            double u = (2.0 * x / scene.Layout.ActiveArea.Width) - 1;
            double v = (2.0 * y / scene.Layout.ActiveArea.Height) - 1;
            double black = scene.Plan.Camera.Body.BlackLevelDn;
            return code >= scene.Largest ? code : black + ((code - black) * (1 + (scene.Size * ((u * u) + (v * v)) / 2)));
        })) { SaturationFactor = size => 1 + (size / 3) },
    ];

    private static Func<PlannedFrame, PlannedFrame> Strips(ForeignScene scene) => frame => WithEffect(frame, (codes, layout) =>
    {
        int period = layout.ColourFilterArray.Columns;
        for (int y = layout.ActiveArea.Y; y < layout.ActiveArea.Bottom; y++)
        {
            for (int x = layout.ActiveArea.X; x < layout.ActiveArea.Right; x += 16 * period)
            {
                for (int phase = 0; phase < period; phase++)
                {
                    int[] sites = [.. Enumerable.Range(0, 16).Select(i => x + phase + (i * period)).Where(c => c < layout.ActiveArea.Right).Select(c => (y * layout.WidthPixels) + c)];
                    int lowest = int.MaxValue;
                    int highest = 0;
                    foreach (int site in sites)
                    {
                        lowest = Math.Min(lowest, codes[site]);
                        highest = Math.Max(highest, codes[site]);
                    }

                    int step = 1;
                    while ((highest - lowest) / step > 127)
                    {
                        step *= 2;
                    }

                    foreach (int site in sites)
                    {
                        codes[site] = (ushort)(lowest + ((codes[site] - lowest) / step * step));
                    }
                }
            }
        }
    });

    /// <summary>What is true of codes that were multiplied by some tenths and rounded, halves upwards: two roundings, of which the first is the converter's.</summary>
    private static IsoTruth Pulled(IsoTruth truth, double factor, double mostDn)
    {
        double[] rounding = [.. Enumerable.Range(0, 10).Select(k => Math.Floor((factor * k) + 0.5 + 1e-9) - (factor * k))];
        double up = rounding.Average();
        double twice = (factor * factor / 12) + rounding.Average(r => (r - up) * (r - up));
        double whole = Math.Round(truth.BlackLevelDn);
        IsoTruth pulled = truth with
        {
            GainElectronPerDn = truth.GainElectronPerDn / factor,
            BlackLevelDn = whole + (factor * (truth.BlackLevelDn - whole)) + up,
            SaturationDn = factor * truth.SaturationDn,
            MiddleGreyDn = factor * truth.MiddleGreyDn,
        };
        return ForeignFlaw.WithNoise(pulled, Math.Sqrt(Math.Max(0, twice - (1 / 12.0))));
    }

    /// <summary>What is true of codes that were multiplied and cut down to whole ones: what the converter's ceiling cuts off is missing at the bright end.</summary>
    private static IsoTruth Pushed(IsoTruth truth, double factor, double mostDn)
    {
        // Where codes near black lie after that: dark frames hold few of them, and each loses another part of a code.
        double whole = Math.Round(truth.BlackLevelDn);
        double noise = double.Hypot(truth.ReadNoiseElectron, truth.DsnuElectron) / truth.GainElectronPerDn;
        double black = Enumerable.Range(-100, 201).Sum(k => Math.Floor(whole + (factor * k))
            * (MathNet.Numerics.Distributions.Normal.CDF(truth.BlackLevelDn, noise, whole + k + 0.5) - MathNet.Numerics.Distributions.Normal.CDF(truth.BlackLevelDn, noise, whole + k - 0.5)));
        double pushed = factor * truth.SaturationDn;
        double saturation = Math.Min(pushed, mostDn);
        return truth with
        {
            GainElectronPerDn = truth.GainElectronPerDn / factor,
            BlackLevelDn = black,
            SaturationDn = saturation,
            SaturationElectron = truth.SaturationElectron * saturation / pushed,
            MiddleGreyDn = factor * truth.MiddleGreyDn,
            AboveEv = truth.AboveEv + Math.Log2(saturation / pushed),
        };
    }

    /// <summary>Eight neighbours of the same colour, or the nearest ones of any.</summary>
    public static PlannedFrame WithNeighbours(ForeignScene scene, PlannedFrame frame, int distance, Func<double, double[], double> change) => WithEffect(frame, (codes, layout) =>
    {
        ushort[] before = codes.ToArray();
        int step = distance > 0 ? distance : Math.Max(layout.ColourFilterArray.Rows, layout.ColourFilterArray.Columns);
        for (int y = layout.ActiveArea.Y + step; y < layout.ActiveArea.Bottom - step; y++)
        {
            for (int x = layout.ActiveArea.X + step; x < layout.ActiveArea.Right - step; x++)
            {
                int at = (y * layout.WidthPixels) + x;
                int down = step * layout.WidthPixels;
                double[] around = [before[at - down - step], before[at - down], before[at - down + step], before[at - step], before[at + step], before[at + down - step], before[at + down], before[at + down + step]];
                codes[at] = (ushort)Math.Clamp(Math.Round(change(before[at], around)), 0, scene.Largest);
            }
        }
    });
}
