using SensorLab.Simulation.Rehearsals;
using static SensorLab.FlawMatrix.Foreign.ForeignScene;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>Converters that stop at a floor or step unevenly, lines that are dead, fields that glow.</summary>
internal static class ForeignDefects
{
    public static IReadOnlyList<ForeignFlaw> All { get; } =
    [
        new("floor", "the converter knows no code below a floor, the pedestal is kept (DN by which the floor lies below black)", ["black-clipped"], [0, 1, 3, 8], scene =>
        {
            double floor = Math.Round(scene.Plan.Camera.Body.BlackLevelDn - scene.Size);
            return frame => scene.WithCodes(frame, (_, _, code) => Math.Max(code, floor));
        }),
        new("dead column", "one column reads black in every frame (1)", ["lines-dead"], [1], scene => Column(scene, (black, _) => black)),
        new("weak column", "one column answers to less light than the others (relative)", ["lines-dead"], [0.05, 0.3], scene => Column(scene, (black, code) => code - (scene.Size * (code - black)))),
        new("bright column", "one column reads higher than the others (DN)", ["lines-dead"], [5, 60], scene => Column(scene, (_, code) => code + scene.Size)),
        new("dead row", "one row reads black in every frame (1)", ["lines-dead"], [1], scene =>
        {
            int line = scene.Layout.ActiveArea.Height / 3;
            double black = scene.Plan.Camera.Body.BlackLevelDn;
            return frame => scene.WithCodes(frame, (_, y, code) => y == line ? Math.Round(black) : code);
        }),
        new("glowing corner", "the electronics beside a corner glow through the longest exposures (DN at the corner)", ["field-glowing"], [4, 12, 62], scene => Glow(scene, (u, v) => Math.Exp(-8 * double.Hypot(1 - u, 1 - v)))),
        new("glowing edge", "the electronics along an edge glow through the longest exposures (DN at the edge)", ["field-glowing"], [4, 12, 62], scene => Glow(scene, (u, _) => Math.Exp(-12 * u))),
        new("lagging readout", "each photosite keeps a share of the one of its colour read before it in the row (relative)", ["raw-filtered"], [0.015, 0.05], scene => frame => WithEffect(frame, (codes, layout) =>
        {
            int period = layout.ColourFilterArray.Columns;
            Random own = scene.Own(frame);
            for (int y = layout.ActiveArea.Y; y < layout.ActiveArea.Bottom; y++)
            {
                for (int x = layout.ActiveArea.Right - 1; x >= layout.ActiveArea.X + period; x--)
                {
                    ref ushort code = ref codes[(y * layout.WidthPixels) + x];
                    double before = codes[(y * layout.WidthPixels) + x - period];
                    code = (ushort)Math.Clamp(Math.Floor(code + (scene.Size * (before - code)) + own.NextDouble()), 0, scene.Largest);
                }
            }
        })),
        new("gaps of codes", "a recording of fewer bits stored in more: codes are multiples (DN)", ["gain-digital", "noise-below-step", "raw-companded"], [2, 4, 8], scene => frame => scene.WithCodes(frame, (_, _, code) => code >= scene.Largest ? code : Math.Floor(code / scene.Size) * scene.Size)) { BlackShiftDn = size => (1 - size) / 2, StepDn = size => size },
    ];

    private static Func<PlannedFrame, PlannedFrame> Column(ForeignScene scene, Func<double, double, double> change)
    {
        int line = scene.Layout.ActiveArea.Width / 3;
        double black = scene.Plan.Camera.Body.BlackLevelDn;
        return frame => scene.WithCodes(frame, (x, _, code) => x == line ? change(black, code) : code);
    }

    /// <summary>Light of the electronics' own: the more the longer a frame is open, with its shot noise, whatever else the frame sees.</summary>
    private static Func<PlannedFrame, PlannedFrame> Glow(ForeignScene scene, Func<double, double, double> shape)
    {
        double longest = scene.Plan.Frames.Max(f => f.Exposure.ExposureSeconds);
        return frame =>
        {
            Random own = scene.Own(frame);
            double gain = frame.Exposure.Setting.GainElectronPerDn;
            double peak = scene.Size * gain * frame.Exposure.ExposureSeconds / longest;
            return scene.WithCodes(frame, (x, y, code) =>
            {
                double light = peak * shape(x / (double)scene.Layout.ActiveArea.Width, y / (double)scene.Layout.ActiveArea.Height);
                return code >= scene.Largest || light < 1e-6 ? code : Math.Floor(code + (Poisson(own, light) / gain) + own.NextDouble());
            });
        };
    }
}
