using SensorLab.Frames;
using SensorLab.Simulation.Rehearsals;
using static SensorLab.FlawMatrix.Foreign.ForeignScene;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>What converters and the reckoning behind them do: clips before the noise, bits that stand, what neighbours owe each other taken out, and what goes with time or to one side.</summary>
internal static class ForeignConverters
{
    /// <summary>Share of the converter's range at which a clip before the noise stands.</summary>
    private const double ClipShare = 0.97;

    private static readonly MathNet.Numerics.Distributions.Normal Normal01 = new();

    private static readonly string[] OfFilters = ["raw-filtered", "raw-companded", "model-rejected", "noise-below-step", "gain-digital"];
    private static readonly string[] OfNoise = ["model-rejected", "noise-banded", "shadow-banded", "black-drift", "pixels-hot", "mode-mixed"];

    public static IReadOnlyList<ForeignFlaw> All { get; } =
    [
        new("clip before noise", "what lies above 0.97 of the converter's range is cut off and gets noise afterwards (DN)", ["response-nonlinear", "levels-declared"], [0.7, 5, 40], scene => frame =>
        {
            Random own = scene.Own(frame);
            double black = scene.Plan.Camera.Body.BlackLevelDn;
            double clip = Math.Round(black + (ClipShare * (scene.Largest - black)));
            return scene.WithCodes(frame, (_, _, code) => code < clip ? code : clip + (scene.Size * Normal(own)));
        })
        {
            Recorded = (truth, _, mostDn) => truth with
            {
                SaturationDn = Math.Min(truth.SaturationDn, ClipShare * mostDn),
                AboveEv = truth.AboveEv + Math.Log2(Math.Min(1, ClipShare * mostDn / truth.SaturationDn)),
            },
        },
        new("odd codes", "the converter's last bit stands: all codes are odd (1)", ["gain-digital", "noise-below-step", "raw-companded"], [1], scene => frame => scene.WithCodes(frame, (_, _, code) => code >= scene.Largest ? code : (2 * Math.Floor(code / 2)) + 1))
        {
            BlackShiftDn = _ => 0.5,
            StepDn = _ => 2,
        },
        new("coarse highs", "codes above half the range are multiples (DN)", ["raw-companded", "model-rejected", "gain-digital"], [4, 16], scene => frame =>
            scene.WithCodes(frame, (_, _, code) => code >= scene.Largest || code < scene.Largest / 2 ? code : Math.Floor((code + (scene.Size / 2)) / scene.Size) * scene.Size)),
        new("lag over colours", "each photosite keeps a share of the one before it in the row, whatever its colour (relative)", OfFilters, [0.015, 0.05], scene => frame => WithEffect(frame, (codes, layout) =>
        {
            Random own = scene.Own(frame);
            for (int y = layout.ActiveArea.Y; y < layout.ActiveArea.Bottom; y++)
            {
                for (int x = layout.ActiveArea.Right - 1; x > layout.ActiveArea.X; x--)
                {
                    ref ushort code = ref codes[(y * layout.WidthPixels) + x];
                    double before = codes[(y * layout.WidthPixels) + x - 1];
                    code = code >= scene.Largest ? code : (ushort)Math.Clamp(Math.Floor(code + (scene.Size * (before - code)) + own.NextDouble()), 0, scene.Largest);
                }
            }
        })),
        new("crosstalk taken out", "what the four nearest of any colour are thought to have added is taken off (weight)", OfFilters, [0.01, 0.05, 0.2], scene => frame => Sharpened(scene, frame, 1)) { Recorded = MovedAway },
        new("sharpened", "differences from a colour's four nearest are made larger (weight)", OfFilters, [0.02, 0.05, 0.2], scene => frame => Sharpened(scene, frame, 0)) { Recorded = MovedAway },
        new("squares of four", "of two by two photosites of a colour the differences are rounded to multiples, the mean is kept (DN)", OfFilters, [2, 8, 32], scene => frame => WithEffect(frame, (codes, layout) =>
        {
            (int down, int right) = (layout.ColourFilterArray.Rows, layout.ColourFilterArray.Columns);
            double Rounded(double difference) => Math.Round(difference / scene.Size) * scene.Size;
            for (int y = layout.ActiveArea.Y; y + down < layout.ActiveArea.Bottom; y++)
            {
                for (int x = layout.ActiveArea.X; x + right < layout.ActiveArea.Right; x++)
                {
                    if (((y - layout.ActiveArea.Y) / down % 2) + ((x - layout.ActiveArea.X) / right % 2) > 0)
                    {
                        continue;
                    }

                    int[] at = [(y * layout.WidthPixels) + x, (y * layout.WidthPixels) + x + right, ((y + down) * layout.WidthPixels) + x, ((y + down) * layout.WidthPixels) + x + right];
                    double[] own = [codes[at[0]], codes[at[1]], codes[at[2]], codes[at[3]]];
                    if (own.Any(code => code >= scene.Largest))
                    {
                        continue;
                    }

                    double mean = own.Average();
                    double across = Rounded(own[0] + own[2] - own[1] - own[3]) / 4;
                    double along = Rounded(own[0] + own[1] - own[2] - own[3]) / 4;
                    double crossed = Rounded(own[0] + own[3] - own[1] - own[2]) / 4;
                    double[] kept = [mean + across + along + crossed, mean - across + along - crossed, mean + across - along - crossed, mean - across - along + crossed];
                    for (int i = 0; i < at.Length; i++)
                    {
                        codes[at[i]] = (ushort)Math.Clamp(Math.Round(kept[i]), 0, scene.Largest);
                    }
                }
            }
        }))
        {
            Recorded = (truth, size, _) => ForeignFlaw.WithNoise(truth, Math.Sqrt(RoundedSquaresDn2(truth.ReadNoiseElectron / truth.GainElectronPerDn, size))),
        },
        new("one channel noisier", "blue is read with more noise (DN, on top)", OfNoise, [1, 2], scene => frame =>
        {
            Random own = scene.Own(frame);
            return scene.WithCodes(frame, (x, y, code) => code >= scene.Largest || ForeignMembers.ChannelAt(scene, x, y) != SensorChannel.B ? code : Math.Floor(code + (scene.Size * Normal(own)) + own.NextDouble()));
        })
        {
            Terms = new() { IsOwnLaw = channel => channel == "B" },
        },
        new("bent to one side", "towards one side photosites lack signal by its square, towards the other they have more, none on the mean (relative at saturation)", ["model-rejected", "response-nonlinear", "target-uneven"], [0.01, 0.05], scene =>
            frame => scene.WithSignals(frame, (x, _, share) => share * (1 - (scene.Size * ((2.0 * x / scene.Layout.ActiveArea.Width) - 1) * share)))),
        new("warm column", "one column has dark current, shot noise included (electrons a second)", ["lines-dead", "pixels-hot", "dark-current", "field-glowing"], [100, 2000], scene => frame =>
        {
            Random own = scene.Own(frame);
            int line = scene.Layout.ActiveArea.Width / 3;
            double gain = frame.Exposure.Setting.GainElectronPerDn;
            return scene.WithCodes(frame, (x, _, code) => x != line || code >= scene.Largest ? code : code + (Poisson(own, scene.Size * frame.Exposure.ExposureSeconds) / gain));
        }),
        new("noisy long times", "frames of a tenth of a second and longer are read with more noise (DN, on top)", OfNoise, [1, 5], scene => frame =>
        {
            Random own = scene.Own(frame);
            return frame.Exposure.ExposureSeconds < ForeignHistories.LongSeconds ? frame : scene.WithCodes(frame, (_, _, code) => code >= scene.Largest ? code : Math.Floor(code + (scene.Size * Normal(own)) + own.NextDouble()));
        }),
        new("slanted cloth", "ribs of three photosites of a colour run aslant over the target (relative)", ["target-textured"], [0.002, 0.01, 0.05], scene => frame => scene.Showing(frame, (x, y) =>
            1 + (scene.Size * Math.Sqrt(2) * Math.Sin(2 * Math.PI * ((x / scene.Layout.ColourFilterArray.Columns / 3.1) + (y / scene.Layout.ColourFilterArray.Rows / 2.7)))))),
        new("pairs share noise", "a photosite and the one below it share noise, whatever their colours (DN, on top)", [.. OfNoise, "raw-filtered"], [0.5, 2], scene => frame =>
        {
            Random own = scene.Own(frame);
            double[] noise = [.. Enumerable.Range(0, (int)scene.Layout.ActiveArea.Area).Select(_ => scene.Size * Normal(own))];
            return scene.WithCodes(frame, (x, y, code) => code >= scene.Largest ? code : Math.Floor(code + noise[(y / 2 * scene.Layout.ActiveArea.Width) + x] + own.NextDouble()));
        })
        {
            Recorded = (truth, size, _) => ForeignFlaw.WithNoise(truth, double.Hypot(size, Math.Sqrt(1 / 6.0))),
        },
        new("warms to one side", "dark current grows from nothing in the first frame and from one side to the other, shot noise included (electrons a second in the last, on the mean)", ["black-drift", "dark-current", "dark-lit", "field-glowing", "target-uneven"], [5, 100], scene => frame =>
        {
            Random own = scene.Own(frame);
            double mean = scene.Size * scene.Place(frame) * frame.Exposure.ExposureSeconds;
            double gain = frame.Exposure.Setting.GainElectronPerDn;
            return scene.WithCodes(frame, (x, _, code) => code >= scene.Largest ? code : Math.Floor(code + (Poisson(own, 2 * mean * x / scene.Layout.ActiveArea.Width) / gain) + own.NextDouble()));
        })
        {
            Recorded = Dithered,
        },
    ];

    private static PlannedFrame Sharpened(ForeignScene scene, PlannedFrame frame, int distance)
    {
        Random own = scene.Own(frame);
        return ForeignFiles.WithNeighbours(scene, frame, distance, (code, around) => code >= scene.Largest ? code : Math.Floor(code + (scene.Size * (code - ((around[1] + around[3] + around[4] + around[6]) / 4))) + own.NextDouble()));
    }

    /// <summary>What is true with what rounding up by chance adds to codes that moved.</summary>
    private static IsoTruth Dithered(IsoTruth truth, double size, double mostDn) => ForeignFlaw.WithNoise(truth, Math.Sqrt(1 / 6.0));

    /// <summary>The same of codes that moved by a share of how far they lie from the mean of four.</summary>
    private static IsoTruth MovedAway(IsoTruth truth, double size, double mostDn) =>
        ForeignFlaw.WithNoise(truth, DitherDn(size * Math.Sqrt(1.25) * truth.ReadNoiseElectron / truth.GainElectronPerDn));

    /// <summary>
    /// What rounding adds of which each of a square's three differences has a quarter of the size as its step, and the codes
    /// a step of one; none where wide steps take more noise away than they make: that is the sensor's own still.
    /// </summary>
    private static double RoundedSquaresDn2(double noiseDn, double size)
    {
        double step = size / 4;
        double deviation = double.Hypot(noiseDn, Math.Sqrt(1 / 12.0)) / 2;
        double rounded = 2 * Enumerable.Range(1, 200).Sum(k => k * step * k * step * (Normal01.CumulativeDistribution((k + 0.5) * step / deviation) - Normal01.CumulativeDistribution((k - 0.5) * step / deviation)));
        return Math.Max(0, (3 * (rounded - (deviation * deviation))) + (1 / 12.0));
    }
}
