using SensorLab.Frames;
using SensorLab.Simulation;
using SensorLab.Simulation.Rehearsals;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>What a foreign flaw works on.</summary>
internal sealed class ForeignScene(RehearsalPlan plan, double size, ulong seed)
{
    /// <summary>The planned frames and the camera.</summary>
    public RehearsalPlan Plan => plan;

    public double Size => size;

    /// <summary>Random numbers that all frames of the set share.</summary>
    public Random Shared { get; } = new(unchecked((int)seed));

    public MosaicLayout Layout => plan.Camera.Layout;

    public int Largest => plan.Camera.Body.LargestCodeDn;

    /// <summary>Random numbers of one frame's own.</summary>
    public Random Own(PlannedFrame frame) => new(unchecked((int)(seed * 7919) + frame.Number));

    /// <summary>Place of a frame in the order of capture, from 0 to 1.</summary>
    public double Place(PlannedFrame frame) => (frame.Number - 1.0) / Math.Max(1, plan.Frames.Count - 1);

    public static bool IsLit(PlannedFrame frame) => frame.Exposure.LightElectron > 0;

    public static PlannedFrame Dimmed(PlannedFrame frame, double factor) =>
        frame with { Exposure = frame.Exposure with { LightElectron = frame.Exposure.LightElectron * factor } };

    /// <summary>The frame with black that lies higher by so much, in DN.</summary>
    public static PlannedFrame Shifted(PlannedFrame frame, double blackDn) =>
        frame with { Exposure = frame.Exposure with { BlackShiftDn = frame.Exposure.BlackShiftDn + blackDn } };

    /// <summary>The frame with each row's light changed.</summary>
    public PlannedFrame WithRows(PlannedFrame frame, Func<int, double> factor) =>
        frame with { Exposure = frame.Exposure with { RowLight = [.. Enumerable.Range(0, Layout.ActiveArea.Height).Select(factor)] } };

    /// <summary>The frame of a field that shows something, by column and row of the active area.</summary>
    public PlannedFrame Showing(PlannedFrame frame, Func<int, int, double> factor)
    {
        int width = Layout.ActiveArea.Width;
        var texture = new float[width * Layout.ActiveArea.Height];
        for (int i = 0; i < texture.Length; i++)
        {
            texture[i] = (float)factor(i % width, i / width);
        }

        return frame with { Exposure = frame.Exposure with { Texture = texture } };
    }

    /// <summary>The frame with every active code changed, by column and row of the active area; cut off at both ends.</summary>
    public PlannedFrame WithCodes(PlannedFrame frame, Func<int, int, double, double> change) => WithEffect(frame, (codes, layout) =>
    {
        for (int y = 0; y < layout.ActiveArea.Height; y++)
        {
            for (int x = 0; x < layout.ActiveArea.Width; x++)
            {
                ref ushort code = ref codes[((layout.ActiveArea.Y + y) * layout.WidthPixels) + layout.ActiveArea.X + x];
                code = (ushort)Math.Clamp(Math.Round(change(x, y, code)), 0, Largest);
            }
        }
    });

    /// <summary>The frame with the signals of its light changed, by column, row and share of saturation; dithered but where codes are cut off.</summary>
    public PlannedFrame WithSignals(PlannedFrame frame, Func<int, int, double, double> response)
    {
        double black = plan.Camera.Body.BlackLevelDn;
        double top = Math.Min(Largest - black, plan.Camera.Body.FullWellElectron / frame.Exposure.Setting.GainElectronPerDn);
        return !IsLit(frame) ? frame : WithCodes(frame, (x, y, code) =>
        {
            double changed = black + (top * response(x, y, (code - black) / top));
            return code <= black ? code : code >= Largest ? Math.Round(changed) : Dithered(changed, (31 * y) + x);
        });
    }

    /// <summary>The frame with all its codes handed over at once.</summary>
    public static PlannedFrame WithEffect(PlannedFrame frame, ReadoutEffect effect) =>
        frame with { Exposure = frame.Exposure with { Effects = [.. frame.Exposure.Effects, effect] } };

    /// <summary>Rounds up as often as the fraction says: an analogue shift does not know codes.</summary>
    public static double Dithered(double code, int at) => Math.Floor(code + (((at * 0.618034) + 0.5) % 1));

    /// <summary>Standard deviation of what <see cref="Dithered"/> adds, in DN, where shifts scatter by as much: f·(1 − f) of a fraction f, on the mean; half of it all frames share.</summary>
    /// <param name="shiftDn">Standard deviation of the shifts in DN, of a normal distribution.</param>
    public static double DitherDn(double shiftDn) => Math.Sqrt(shiftDn < 0.4 ? (Math.Sqrt(2 / Math.PI) * shiftDn) - (shiftDn * shiftDn) : 1 / 6.0);

    /// <summary>A Poisson count: exact for few, rounded normal for many.</summary>
    public static double Poisson(Random random, double mean)
    {
        if (mean > 50)
        {
            return Math.Max(0, Math.Round(mean + (Math.Sqrt(mean) * Normal(random))));
        }

        double limit = Math.Exp(-mean);
        double product = random.NextDouble();
        int count = 0;
        while (product > limit)
        {
            product *= random.NextDouble();
            count++;
        }

        return count;
    }
}
