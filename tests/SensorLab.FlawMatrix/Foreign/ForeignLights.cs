using SensorLab.Frames;
using SensorLab.Simulation.Rehearsals;
using static SensorLab.FlawMatrix.Foreign.ForeignScene;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>Lamps, shutters and walls of other kinds than the catalogue's.</summary>
internal static class ForeignLights
{
    public static IReadOnlyList<ForeignFlaw> All { get; } =
    [
        new("odd frame", "one bracket frame of a well-lit level at another light (relative)", ["light-flicker", "exposure-inexact"], [0.01, 0.1, 0.5], OddFrame),
        new("torn frame", "one bracket frame of a well-lit level has less light from its middle down (relative)", ["light-banded", "light-flicker", "light-stepped", "target-uneven", "exposure-inexact"], [0.01, 0.1, 0.5], scene =>
        {
            PlannedFrame torn = MiddleOfBracket(scene);
            return frame => frame.Number == torn.Number ? scene.WithRows(frame, y => y < scene.Layout.ActiveArea.Height / 2 ? 1 : 1 - scene.Size) : frame;
        }),
        new("lamp burns in", "light decays to its end value over the bracket (relative)", ["light-drift"], [0.03, 0.2, 0.5], scene =>
            frame => frame.Role == FrameRole.Bracket ? Dimmed(frame, 1 + (scene.Size * Math.Exp(-6 * scene.Place(frame)))) : frame),
        new("lamp steps", "light drops at the middle of the bracket (relative)", ["light-drift", "light-flicker", "exposure-inexact", "response-nonlinear"], [0.01, 0.05, 0.3], scene =>
            frame => scene.Place(frame) > 0.6 ? Dimmed(frame, 1 - scene.Size) : frame),
        new("short shutter", "every exposure is short by a fixed time (seconds)", ["exposure-inexact", "response-nonlinear", "light-drift", "dark-lit", "black-drift"], [0.00001, 0.0001, 0.001], scene =>
            frame => Dimmed(frame, Math.Max(0.05, 1 - (scene.Size / frame.Exposure.ExposureSeconds)))),
        new("travelling slit", "fast times give the frame's top more than its bottom (relative)", ["target-uneven", "exposure-inexact"], [0.01, 0.1, 0.4], scene =>
            frame => IsLit(frame) ? scene.WithRows(frame, y => 1 + (scene.Size / (1 + (200 * frame.Exposure.ExposureSeconds)) * (0.5 - (y / (double)scene.Layout.ActiveArea.Height)))) : frame),
        new("switched lamp", "a lamp that is on for a half of 1/120 s under a shutter that rolls in 1/30 s; the size is how deep it dims", ["light-banded"], [0.02, 0.2, 1], SwitchedLamp),
        new("sine of random phase", "rows' light is a sine of 40 rows and random phase (relative)", ["light-banded"], [0.003, 0.03, 0.2], scene =>
            frame =>
            {
                double phase = 2 * Math.PI * scene.Own(frame).NextDouble();
                return IsLit(frame) ? scene.WithRows(frame, y => 1 + (scene.Size * Math.Sin((2 * Math.PI * y / 40) + phase))) : frame;
            }),
        new("lamp reddens", "red gains light over the bracket, blue loses it (relative, in the last frame)", ["light-drift", "response-nonlinear", "exposure-inexact"], [0.01, 0.05, 0.2], scene =>
            frame => IsLit(frame) ? scene.Showing(frame, (x, y) => 1 + (scene.Size * scene.Place(frame) * Redness(scene, x, y))) : frame),
        new("bent under a lamp that reddens", "the same, and the response lacks a thirtieth at saturation, with the square of the signal (relative)", ["response-nonlinear"], [0.01, 0.05, 0.2], scene =>
            frame => IsLit(frame) ? scene.Showing(scene.WithSignals(frame, (_, _, share) => share * (1 - (share / 30))), (x, y) => 1 + (scene.Size * scene.Place(frame) * Redness(scene, x, y))) : frame)
        {
            SaturationFactor = _ => 29 / 30.0,
        },
        new("lamp's colour flickers", "red and blue change against each other from frame to frame (relative)", ["light-flicker", "exposure-inexact", "light-drift"], [0.001, 0.01, 0.05], scene => frame =>
        {
            double redness = scene.Size * Normal(scene.Own(frame));
            return IsLit(frame) ? scene.Showing(frame, (x, y) => 1 + (redness * Redness(scene, x, y))) : frame;
        }),
        new("lamp wanders", "light takes a random step from frame to frame (relative)", ["light-drift", "light-flicker", "light-stepped", "exposure-inexact"], [0.001, 0.01, 0.05], scene =>
        {
            double light = 0;
            double[] walk = [.. Enumerable.Range(0, scene.Plan.Frames.Max(f => f.Number) + 1).Select(_ => light += scene.Size * Normal(scene.Shared))];
            double metered = scene.Plan.Frames.Where(f => f.Role == FrameRole.Metered).Average(f => walk[f.Number]);
            return frame => Dimmed(frame, Math.Exp(walk[frame.Number] - metered));
        }),
        new("colour shading", "red falls off to one side and blue to the other (relative)", ["target-uneven"], [0.05, 0.3], scene =>
            Shown(scene, (x, y) => 1 + (scene.Size * Redness(scene, x, y) * ((2.0 * x / scene.Layout.ActiveArea.Width) - 1)))),
        new("greens apart", "the second green's photosites see less light, beside other neighbours (relative)", ["channel-scaled", "target-textured"], [0.005, 0.02], scene =>
            Shown(scene, (x, y) => scene.Layout.ColourFilterArray.ChannelAt(y, x) == SensorChannel.G2 ? 1 - scene.Size : 1)),
        new("dust settles", "from the middle of the bracket on thirty sharp spots dim the light (relative)", ["target-textured", "pixels-hot"], [0.02, 0.2], scene =>
        {
            Func<int, int, double> dust = Dust(scene);
            return frame => scene.Place(frame) > 0.6 && IsLit(frame) ? scene.Showing(frame, dust) : frame;
        }),
        new("lamp moves", "light tilts from one side to the other between frames (relative)", ["target-uneven", "light-flicker", "light-drift", "exposure-inexact"], [0.02, 0.1, 0.4], scene =>
            frame => IsLit(frame) ? scene.Showing(frame, (x, _) => 1 + (scene.Size * ((2.0 * x / scene.Layout.ActiveArea.Width) - 1) * ((frame.Number % 2 * 2) - 1))) : frame),
        new("blobs", "soft blobs of 8 photosites (relative)", ["target-textured", "target-uneven"], [0.002, 0.02, 0.1], scene => Shown(scene, Blobs(scene, 60, 8, scene.Size))),
        new("dust", "thirty sharp spots of 3 photosites that dim the light (relative)", ["target-textured", "pixels-hot"], [0.01, 0.1, 0.6], scene => Shown(scene, Dust(scene))),
        new("weave", "a weave of four by four photosites (relative)", ["target-textured"], [0.002, 0.01, 0.05], scene =>
            Shown(scene, (x, y) => 1 + (scene.Size * ((((x / 4) + (y / 4)) % 2 * 2) - 1)))),
        new("shake", "a textured wall that moves by two photosites between frames (relative)", ["target-textured", "light-banded", "model-rejected"], [0.002, 0.01, 0.05], Shake),
        new("edge", "a dark edge over a fifth of the frame (relative)", ["target-uneven", "target-textured"], [0.02, 0.2, 0.9], scene =>
            Shown(scene, (x, _) => x < scene.Layout.ActiveArea.Width / 5 ? 1 - scene.Size : 1)),
        new("off-centre vignette", "fourth power of the cosine about a point near a corner (radians to the far corner)", ["target-uneven"], [0.1, 0.4, 0.8], scene =>
            Shown(scene, (x, y) => Math.Pow(Math.Cos(scene.Size * double.Hypot((double)x / scene.Layout.ActiveArea.Width, (double)y / scene.Layout.ActiveArea.Height)), 4)))
        {
            Recorded = (truth, size, _) => MeteredDarker(truth, Math.Pow(Math.Cos(size * Math.Sqrt(0.5)), 4)),
        },
        new("even leak", "the same light in all dark frames, whatever their time (green DN)", ["dark-lit", "black-drift"], [0.05, 1, 10], scene =>
            frame => frame.Role == FrameRole.Dark ? frame with { Exposure = frame.Exposure with { LightElectron = scene.Size * frame.Exposure.Setting.GainElectronPerDn } } : frame),
        new("leak in one frame", "light in one dark frame alone (green DN)", ["dark-lit", "black-drift"], [0.05, 1, 10], scene =>
            frame => frame.Number == 2 ? frame with { Exposure = frame.Exposure with { LightElectron = scene.Size * frame.Exposure.Setting.GainElectronPerDn } } : frame),
    ];

    /// <summary>1 where a photosite sees red, -1 where it sees blue.</summary>
    private static int Redness(ForeignScene scene, int x, int y) => scene.Layout.ColourFilterArray.ChannelAt(y, x) switch
    {
        SensorChannel.R => 1,
        SensorChannel.B => -1,
        _ => 0,
    };

    /// <summary>What is true where the meter's spot has a share of the light that the frames were planned for.</summary>
    private static IsoTruth MeteredDarker(IsoTruth truth, double share) => truth with
    {
        MiddleGreyDn = share * truth.MiddleGreyDn,
        AboveEv = truth.AboveEv - Math.Log2(share),
        BelowEv = truth.BelowEv.ToDictionary(b => b.Key, b => b.Value + Math.Log2(share)),
    };

    private static Func<PlannedFrame, PlannedFrame> OddFrame(ForeignScene scene)
    {
        PlannedFrame odd = MiddleOfBracket(scene);
        return frame => frame.Number == odd.Number ? Dimmed(frame, 1 - scene.Size) : frame;
    }

    private static PlannedFrame MiddleOfBracket(ForeignScene scene)
    {
        PlannedFrame[] bracket = [.. scene.Plan.Frames.Where(f => f.Role == FrameRole.Bracket)];
        return bracket[bracket.Length / 2];
    }

    private static Func<PlannedFrame, PlannedFrame> SwitchedLamp(ForeignScene scene) => frame =>
    {
        const double Period = 1.0 / 120;
        const double Readout = 1.0 / 30;
        double phase = Period * scene.Own(frame).NextDouble();
        double On(double until) => (Math.Floor(until / Period) * Period / 2) + Math.Min(until % Period, Period / 2);
        double open = frame.Exposure.ExposureSeconds;
        return IsLit(frame)
            ? scene.WithRows(frame, y =>
            {
                double start = phase + (Readout * y / scene.Layout.ActiveArea.Height);
                return 1 + (scene.Size * ((2 * (On(start + open) - On(start)) / open) - 1));
            })
            : frame;
    };

    private static Func<PlannedFrame, PlannedFrame> Shown(ForeignScene scene, Func<int, int, double> factor) =>
        frame => IsLit(frame) ? scene.Showing(frame, factor) : frame;

    private static Func<int, int, double> Blobs(ForeignScene scene, int count, double radius, double depth)
    {
        int width = scene.Layout.ActiveArea.Width;
        int height = scene.Layout.ActiveArea.Height;
        (double X, double Y, double Sign)[] blobs = [.. Enumerable.Range(0, count).Select(_ => (scene.Shared.NextDouble() * width, scene.Shared.NextDouble() * height, scene.Shared.NextDouble() < 0.5 ? -1.0 : 1.0))];
        return (x, y) => 1 + blobs.Sum(b => b.Sign * depth * Math.Exp(-(((x - b.X) * (x - b.X)) + ((y - b.Y) * (y - b.Y))) / (2 * radius * radius)));
    }

    private static Func<int, int, double> Dust(ForeignScene scene)
    {
        (double X, double Y)[] spots = [.. Enumerable.Range(0, 30).Select(_ => (scene.Shared.NextDouble() * scene.Layout.ActiveArea.Width, scene.Shared.NextDouble() * scene.Layout.ActiveArea.Height))];
        return (x, y) => spots.Any(s => double.Hypot(x - s.X, y - s.Y) < 3) ? 1 - scene.Size : 1;
    }

    private static Func<PlannedFrame, PlannedFrame> Shake(ForeignScene scene)
    {
        double[] grain = [.. Enumerable.Range(0, 64 * 64).Select(_ => 1 + (scene.Size * Normal(scene.Shared)))];
        return frame =>
        {
            Random own = scene.Own(frame);
            int dx = own.Next(3);
            int dy = own.Next(3);
            return IsLit(frame) ? scene.Showing(frame, (x, y) => Math.Max(0.1, grain[((y + dy) / 3 % 64 * 64) + ((x + dx) / 3 % 64)])) : frame;
        };
    }
}
