using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Draws;

namespace SensorLab.Simulation;

/// <summary>Exposes frames of a virtual body: photons arrive at random, the sensor and its converter do the rest.</summary>
/// <remarks>
/// A photosite expects light × field × sensitivity × response (and dark current), counts a Poisson number of electrons,
/// holds no more than the full well, gains its fixed offset, read, row and column noise, and is converted to
/// floor(e⁻/g + black + ½), cut off at the lowest and at the largest code. Nothing here knows how frames are analysed.
/// One stream of random numbers a frame: a frame hangs on its seed and number alone. Safe for several threads.
/// </remarks>
public sealed class VirtualCamera
{
    private readonly FixedPattern _pattern;

    /// <summary>Builds a camera and draws its fixed patterns.</summary>
    /// <param name="body">A body; checked here.</param>
    /// <exception cref="MalformedFileException">A property of the body is out of its domain; the message names it.</exception>
    public VirtualCamera(VirtualBody body)
    {
        VirtualBodyCheck.Demand(body);
        Body = body;
        Layout = body.Layout();
        _pattern = FixedPattern.Of(body, Layout);
    }

    /// <summary>The body.</summary>
    public VirtualBody Body { get; }

    /// <summary>The geometry of its frames.</summary>
    public MosaicLayout Layout { get; }

    /// <summary>Stored photosites of a frame.</summary>
    public int PixelCount => Layout.WidthPixels * Layout.HeightPixels;

    /// <summary>Exposes one frame.</summary>
    /// <param name="exposure">The light and the draw.</param>
    /// <param name="codes">Destination, stored rows × stored columns, in DN.</param>
    /// <exception cref="ArgumentException">The destination has another length than <see cref="PixelCount"/>.</exception>
    public void Expose(Exposure exposure, Span<ushort> codes)
    {
        if (codes.Length != PixelCount)
        {
            throw new ArgumentException($"A frame has {PixelCount} photosites, the destination {codes.Length}.", nameof(codes));
        }

        var stream = new RandomStream(exposure.Seed, exposure.FrameNumber);
        var sensor = new Conversion(Body, exposure);
        double[] columnNoise = DrawLines(ref stream, Layout.WidthPixels, Body.ColumnNoiseElectron);
        double[] columnTerms = exposure.Field.ColumnTerms(Layout.ActiveArea.Width);
        double maskedShift = Body.MaskedBlackShiftDn * exposure.Setting.GainElectronPerDn;
        double[] besideMask = [.. columnNoise.Select((noise, column) => column < Layout.ActiveArea.X ? noise + maskedShift : noise)];
        var light = new double[Layout.WidthPixels];
        for (int row = 0; row < Layout.HeightPixels; row++)
        {
            bool isMasked = row < Layout.ActiveArea.Y;
            FillLight(light, exposure, columnTerms, row - Layout.ActiveArea.Y);
            double rowNoise = Body.RowNoiseElectron > 0 ? Body.RowNoiseElectron * Normal.Next(ref stream) : 0;
            int start = row * Layout.WidthPixels;
            sensor.ConvertRow(
                ref stream,
                light,
                _pattern.Response.AsSpan(start, light.Length),
                _pattern.OffsetElectron.AsSpan(start, light.Length),
                isMasked ? columnNoise : besideMask,
                isMasked ? rowNoise + maskedShift : rowNoise,
                codes.Slice(start, light.Length));
        }

        foreach (ReadoutEffect effect in exposure.Effects)
        {
            effect(codes, Layout);
        }
    }

    private void FillLight(double[] light, Exposure exposure, double[] columnTerms, int activeRow)
    {
        double dark = Body.DarkCurrentElectronPerSecond * exposure.ExposureSeconds;
        Array.Fill(light, dark);
        if (activeRow < 0 || exposure.LightElectron == 0)
        {
            return;
        }

        PixelRectangle active = Layout.ActiveArea;
        double rowTerm = exposure.Field.RowTerm(activeRow, active.Height);
        double rowLight = exposure.LightElectron * (exposure.RowLight?[activeRow] ?? 1);
        int columns = Layout.ColourFilterArray.Columns;
        double[] seen = [.. Enumerable.Range(0, columns).Select(column => rowLight * SeenBy(activeRow, column, exposure))];
        ReadOnlySpan<float> texture = exposure.Texture is { } map ? map.AsSpan(activeRow * active.Width, active.Width) : default;
        for (int x = 0; x < active.Width; x++)
        {
            double factor = columnTerms[x] + rowTerm;
            double shown = texture.IsEmpty ? 1 : texture[x];
            light[active.X + x] += seen[x % columns] * factor * shown;
        }
    }

    private double SeenBy(int row, int column, Exposure exposure)
    {
        ColourFilterArray filters = Layout.ColourFilterArray;
        SensorChannel channel = filters.ChannelAt(row, column);
        int place = (row % filters.Rows * filters.Columns) + (column % filters.Columns);
        double own = Body.PlaceSensitivity.Count == 0 ? 1 : Body.PlaceSensitivity[place];
        return own * Body.ChannelSensitivity.Of(channel) * (exposure.LampColour?.Of(channel) ?? 1);
    }

    private static double[] DrawLines(ref RandomStream stream, int length, double deviation)
    {
        var noise = new double[length];
        if (deviation > 0)
        {
            for (int i = 0; i < length; i++)
            {
                noise[i] = deviation * Normal.Next(ref stream);
            }
        }

        return noise;
    }
}
