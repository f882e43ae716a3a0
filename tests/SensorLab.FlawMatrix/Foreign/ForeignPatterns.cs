using SensorLab.Simulation.Rehearsals;
using static SensorLab.FlawMatrix.Foreign.ForeignScene;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>Fixed patterns that are not drawn site by site: by turns, in fields, of clips and bends of a site's own.</summary>
internal static class ForeignPatterns
{
    private const int Turns = 8;
    private const int ShortTurns = 3;

    /// <summary>Sites between columns that are mapped out.</summary>
    private const int MappedEvery = 50;

    private static readonly string[] OfPattern = ["noise-banded", "shadow-banded", "lines-dead", "raw-filtered", "model-rejected"];

    /// <summary>Offsets by turns of eight: their mean is 0, their mean square 1.</summary>
    private static readonly double[] OfEight = Unit([2, -1, 0, 3, -2, 1, -3, 0]);

    private static readonly double[] OfTwo = [1, -1];

    private static readonly double[] OfThree = Unit([1, -2, 1]);

    public static IReadOnlyList<ForeignFlaw> All { get; } =
    [
        new("columns by eights", "eight amplifiers read a colour's columns by turns, each with a black of its own (DN)", OfPattern, [0.5, 5], scene => Offsets(scene, (x, _) => OfEight[x % Turns])) { Recorded = (truth, size, _) => WithOffsets(truth, size, OfEight) },
        new("columns by threes", "three amplifiers read a colour's columns by turns, each with a black of its own (DN)", OfPattern, [0.5, 5], scene => Offsets(scene, (x, _) => OfThree[x % ShortTurns])) { Recorded = (truth, size, _) => WithOffsets(truth, size, OfThree) },
        new("rows apart", "every second row of a colour lies higher (DN)", OfPattern, [0.5, 1, 3], scene => Offsets(scene, (_, y) => y % 2 == 0 ? 1 : -1)) { Recorded = (truth, size, _) => WithOffsets(truth, size, OfTwo) },
        new("chequered black", "photosites lie higher and lower as on a chessboard (DN)", OfPattern, [0.5, 1], scene => Offsets(scene, (x, y) => (x + y) % 2 == 0 ? 1 : -1)) { Recorded = (truth, size, _) => WithOffsets(truth, size, OfTwo) },
        new("amplifiers' blacks apart", "the right half's black lies higher (DN)", [.. OfPattern, "black-drift", "field-glowing", "target-uneven"], [0.5, 5], scene =>
            frame => scene.WithCodes(frame, (x, y, code) => code >= scene.Largest || x < scene.Layout.ActiveArea.Width / 2 ? code : Dithered(code + scene.Size, (31 * y) + x)))
        {
            // A fraction of a code is rounded up at as many sites as it says: a pattern of the half that is raised.
            Recorded = (truth, size, _) => ForeignFlaw.WithPattern(truth, Math.Sqrt((size % 1) * (1 - (size % 1)) / 2)) with { BlackLevelDn = truth.BlackLevelDn + (size / 2) },
        },
        new("columns' gains by eights", "eight amplifiers read a colour's columns by turns, each with a gain of its own (relative)", [.. OfPattern, "target-textured"], [0.002, 0.02], scene => Gains(scene, (x, _) => OfEight[x % Turns])) { Recorded = (truth, size, _) => ForeignFlaw.WithPattern(truth, 0, size) },
        new("rows of two gains", "every second row of a colour is amplified more (relative)", [.. OfPattern, "target-textured"], [0.002, 0.02, 0.5], scene => Gains(scene, (_, y) => y % 2 == 0 ? 1 : -1)) { Recorded = (truth, size, _) => ForeignFlaw.WithPattern(truth, 0, size) },
        new("photosites bend apart", "each photosite lacks signal by its square, in its own measure, none on the mean (relative at saturation)", ["model-rejected", "response-nonlinear"], [0.002, 0.01, 0.03], scene =>
        {
            double[] bends = [.. Enumerable.Range(0, (int)scene.Layout.ActiveArea.Area).Select(_ => scene.Size * Normal(scene.Shared))];
            return frame => scene.WithSignals(frame, (x, y, share) => share * (1 - (bends[(y * scene.Layout.ActiveArea.Width) + x] * share)));
        }),
        new("columns clip apart", "columns' converters end each at a code of its own (relative, the standard deviation below the last)", ["response-nonlinear", "levels-declared", "saturation-not-reached"], [0.003, 0.01], scene =>
        {
            double[] ends = [.. Enumerable.Range(0, scene.Layout.ActiveArea.Width).Select(_ => Math.Round(scene.Largest * (1 - (scene.Size * Math.Abs(Normal(scene.Shared))))))];
            return frame => scene.WithCodes(frame, (x, _, code) => Math.Min(code, ends[x]));
        })
        {
            Recorded = (truth, _, _) => truth with { AboveEv = null },
        },
        new("columns mapped out", "one column in fifty of a colour is the mean of its neighbours (1)", [.. OfPattern, "pixels-hot", "target-textured"], [1], scene => frame => WithEffect(frame, (codes, layout) =>
        {
            int repeat = layout.ColourFilterArray.Columns;
            for (int y = layout.ActiveArea.Y; y < layout.ActiveArea.Bottom; y++)
            {
                for (int x = layout.ActiveArea.X + repeat; x < layout.ActiveArea.Right - repeat; x++)
                {
                    int at = (y * layout.WidthPixels) + x;
                    if ((x - layout.ActiveArea.X) / repeat % MappedEvery == 7)
                    {
                        codes[at] = (ushort)((codes[at - repeat] + codes[at + repeat] + 1) / 2);
                    }
                }
            }
        })),
        new("dead patch", "a square of photosites reads black in every frame (photosites a side)", ["pixels-hot", "lines-dead", "target-textured", "target-uneven", "field-glowing"], [6, 20], scene =>
        {
            double black = Math.Round(scene.Plan.Camera.Body.BlackLevelDn);
            int left = scene.Layout.ActiveArea.Width / 8;
            int top = scene.Layout.ActiveArea.Height / 8;
            return frame => scene.WithCodes(frame, (x, y, code) => x >= left && x < left + scene.Size && y >= top && y < top + scene.Size ? black : code);
        }),
    ];

    private static double[] Unit(double[] values)
    {
        double deviation = Math.Sqrt(values.Average(v => v * v));
        return [.. values.Select(v => v / deviation)];
    }

    /// <summary>What is true with offsets by turns: a fraction f of a code is rounded up as often as it says, whose noise is f·(1 − f).</summary>
    private static IsoTruth WithOffsets(IsoTruth truth, double size, IReadOnlyList<double> turns)
    {
        double noise = turns.Select(t => (size * t) - Math.Floor(size * t)).Average(f => f * (1 - f));
        return ForeignFlaw.WithPattern(ForeignFlaw.WithNoise(truth, Math.Sqrt(noise)), size);
    }

    /// <summary>A pattern of black, of mean square 1, by column and row of a colour's plane.</summary>
    private static Func<PlannedFrame, PlannedFrame> Offsets(ForeignScene scene, Func<int, int, double> pattern) => frame =>
    {
        Random own = scene.Own(frame);
        return scene.WithCodes(frame, (x, y, code) => code >= scene.Largest ? code : Math.Floor(code + (scene.Size * At(scene, pattern, x, y)) + own.NextDouble()));
    };

    /// <summary>A pattern of gains, of mean square 1, by column and row of a colour's plane.</summary>
    private static Func<PlannedFrame, PlannedFrame> Gains(ForeignScene scene, Func<int, int, double> pattern) => frame =>
    {
        Random own = scene.Own(frame);
        double black = scene.Plan.Camera.Body.BlackLevelDn;
        return scene.WithCodes(frame, (x, y, code) => code >= scene.Largest || !IsLit(frame) ? code : Math.Floor(code + (scene.Size * (code - black) * At(scene, pattern, x, y)) + own.NextDouble()));
    };

    private static double At(ForeignScene scene, Func<int, int, double> pattern, int x, int y) =>
        pattern(x / scene.Layout.ColourFilterArray.Columns, y / scene.Layout.ColourFilterArray.Rows);
}
