using SensorLab.Frames;
using static SensorLab.FlawMatrix.Foreign.ForeignScene;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>Flaws of some channels, rows, columns or frames, which the others do not share.</summary>
internal static class ForeignMembers
{
    private const int RowsTogether = 4;

    /// <summary>Of a streak's noise, from one photosite to the next.</summary>
    private const double ShareCarried = 0.95;

    /// <summary>Times the full well from which an eclipsed photosite reads less.</summary>
    private const double EclipsedFrom = 3;

    private static readonly string[] OfRows = ["noise-banded", "shadow-banded", "light-banded", "black-drift"];

    public static IReadOnlyList<ForeignFlaw> All { get; } =
    [
        new("one channel bends", "red alone lacks signal by its square (relative at saturation)", ["response-nonlinear", "model-rejected", "light-drift"], [0.01, 0.05, 0.2], scene =>
            frame => scene.WithSignals(frame, (x, y, share) => ChannelAt(scene, x, y) == SensorChannel.R ? share * (1 - (scene.Size * share)) : share))
        {
            Terms = new() { IsOwnLaw = channel => channel == "R" },
        },
        new("one channel clips early", "blue's codes end below the others' (share of the range)", ["response-nonlinear", "levels-declared"], [0.05, 0.3], scene =>
            frame => scene.WithCodes(frame, (x, y, code) => ChannelAt(scene, x, y) == SensorChannel.B ? Math.Min(code, Math.Round(scene.Largest * (1 - scene.Size))) : code))
        {
            Terms = new() { IsOwnLaw = channel => channel == "B" },
        },
        new("eclipse", "photosites in three times the light that fills them read less (relative)", ["response-nonlinear", "levels-declared"], [0.05, 0.5], scene =>
            frame => frame.Exposure.LightElectron < EclipsedFrom * scene.Plan.Camera.Body.FullWellElectron ? frame : scene.WithCodes(frame, (x, y, code) =>
                Dithered(code - (scene.Size * Math.Max(0, code - scene.Plan.Camera.Body.BlackLevelDn)), (31 * y) + x))),
        new("black tilts", "from top to bottom black rises or sinks, otherwise in each frame (DN)", OfRows, [0.1, 1, 10], scene => frame =>
        {
            double tilt = scene.Size * Normal(scene.Own(frame));
            return scene.WithCodes(frame, (x, y, code) => code >= scene.Largest ? code : Dithered(code + (tilt * ((y / (double)scene.Layout.ActiveArea.Height) - 0.5)), (37 * y) + x));
        })
        {
            Recorded = (truth, size, _) => ForeignFlaw.WithNoise(truth, 0, DitherDn(size / Math.Sqrt(12))),
        },
        new("rows by fours", "four rows at a time share noise (DN)", OfRows, [0.05, 0.5, 5], scene => frame =>
        {
            Random own = scene.Own(frame);
            double[] rows = [.. Enumerable.Range(0, 1 + (scene.Layout.ActiveArea.Height / RowsTogether)).Select(_ => scene.Size * Normal(own))];
            return scene.WithCodes(frame, (x, y, code) => Dithered(code + rows[y / RowsTogether], (37 * y) + x));
        })
        {
            Recorded = (truth, size, _) => ForeignFlaw.WithNoise(truth, size, DitherDn(size)),
        },
        new("streaks", "noise that the readout carries along the rows, nineteen twentieths from photosite to photosite (DN)", [.. OfRows, "raw-filtered"], [0.05, 0.5, 5], scene => frame =>
        {
            Random own = scene.Own(frame);
            double carried = 0;
            return scene.WithCodes(frame, (_, _, code) =>
            {
                carried = (ShareCarried * carried) + (Math.Sqrt(1 - (ShareCarried * ShareCarried)) * Normal(own));
                return code >= scene.Largest ? code : Math.Floor(code + (scene.Size * carried) + own.NextDouble());
            });
        })
        {
            Recorded = (truth, size, _) => ForeignFlaw.WithNoise(truth, double.Hypot(size, DitherDn(size))),
        },
        new("blinking column", "one column is brighter in every second frame or so (DN)", [.. OfRows, "lines-dead", "pixels-hot"], [2, 20, 200], scene => frame =>
            scene.Own(frame).NextDouble() < 0.5 ? frame : scene.WithCodes(frame, (x, _, code) => x == scene.Layout.ActiveArea.Width / 3 ? code + scene.Size : code)),
        new("columns by two", "every second column of a colour has an amplifier of its own (relative)", ["target-textured", "noise-banded", "raw-filtered"], [0.002, 0.02], scene => frame => scene.WithCodes(frame, (x, y, code) =>
            IsFirstColumn(scene, x) || code >= scene.Largest ? code : Dithered(code + (scene.Size * (code - scene.Plan.Camera.Body.BlackLevelDn)), (31 * x) + y)))
        {
            Recorded = (truth, size, most) => ForeignFlaw.WithPattern(truth, 0, size / 2) with { SaturationDn = Math.Min(most, truth.SaturationDn * (1 + (size / 2))) },
        },
        new("columns apart", "every second column of a colour lies higher (DN)", ["noise-banded", "shadow-banded", "lines-dead", "raw-filtered"], [1, 10], scene => frame => scene.WithCodes(frame, (x, _, code) =>
            IsFirstColumn(scene, x) || code >= scene.Largest ? code : code + scene.Size))
        {
            Recorded = (truth, size, _) => ForeignFlaw.WithPattern(truth, size / 2) with { BlackLevelDn = truth.BlackLevelDn + (size / 2) },
        },
        new("first release", "the first frame of each exposure time has less light (relative)", ["light-flicker", "exposure-inexact"], [0.005, 0.05], scene => frame =>
            scene.Plan.Frames.First(f => f.Role == frame.Role && f.Exposure.ExposureSeconds == frame.Exposure.ExposureSeconds) == frame ? Dimmed(frame, 1 - scene.Size) : frame),
        new("long shutter", "every exposure is long by a fixed time (seconds)", ["exposure-inexact", "response-nonlinear", "light-drift", "black-drift", "dark-lit"], [0.00001, 0.0001, 0.001], scene => frame =>
            IsLit(frame) ? Dimmed(frame, 1 + (scene.Size / frame.Exposure.ExposureSeconds)) : frame),
        new("telegraph noise", "a twentieth of the photosites jump up or down in a third of the frames (DN)", ["model-rejected", "pixels-hot", "raw-filtered"], [1, 5], scene =>
        {
            bool[] jumps = [.. Enumerable.Range(0, (int)scene.Layout.ActiveArea.Area).Select(_ => scene.Shared.Next(20) == 0)];
            return frame =>
            {
                Random own = scene.Own(frame);
                return scene.WithCodes(frame, (x, y, code) => jumps[(y * scene.Layout.ActiveArea.Width) + x] && own.Next(3) == 0 ? code + (own.Next(2) == 0 ? scene.Size : -scene.Size) : code);
            };
        })
        {
            Recorded = (truth, size, _) => ForeignFlaw.WithNoise(truth, size / Math.Sqrt(60)),
        },
    ];

    private static bool IsFirstColumn(ForeignScene scene, int x) => x / scene.Layout.ColourFilterArray.Columns % 2 == 0;

    public static SensorChannel ChannelAt(ForeignScene scene, int x, int y) => scene.Layout.ColourFilterArray.ChannelAt(y, x);
}
