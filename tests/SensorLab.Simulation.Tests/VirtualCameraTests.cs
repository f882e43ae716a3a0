using SensorLab.Frames;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Tests;

public sealed class VirtualCameraTests
{
    private const int Width = 600;
    private const int Height = 400;
    private const int Pixels = Width * Height;
    private const double StandardErrors = 5;

    private static readonly VirtualBody Mono = new()
    {
        ColourFilterArray = "monochrome",
        WidthPixels = Width,
        HeightPixels = Height,
    };

    [Fact]
    public void Expose_Dark_HasBlackReadNoiseAndDsnuOfTheBody()
    {
        VirtualIso setting = Mono.At(1600);
        (double mean, double temporal, double spatial) = Pair(Mono, setting, 0);
        double g = setting.GainElectronPerDn;
        double sigma2 = (setting.ReadNoiseElectron * setting.ReadNoiseElectron / (g * g)) + (1.0 / 12);
        double fixed2 = Mono.DsnuElectron * Mono.DsnuElectron / (g * g);
        Near(mean, Mono.BlackLevelDn, Math.Sqrt(((sigma2 / 2) + fixed2) / Pixels));
        Near(temporal, sigma2, sigma2 * Math.Sqrt(2.0 / Pixels));
        Near(spatial, fixed2, ((sigma2 / 2) + fixed2) * Math.Sqrt(2.0 / Pixels) + (sigma2 / 2 * Math.Sqrt(2.0 / Pixels)));
    }

    [Theory]
    [InlineData(100, 4)]
    [InlineData(100, 90)]
    [InlineData(100, 3000)]
    [InlineData(100, 30_000)]
    [InlineData(800, 1500)]
    public void Expose_Lit_FollowsPhotonTransferByHand(int iso, double electrons)
    {
        VirtualIso setting = Mono.At(iso);
        (double mean, double temporal, double spatial) = Pair(Mono, setting, electrons);
        double g = setting.GainElectronPerDn;
        double prnu = 0.01 * Mono.PrnuPercent * electrons;
        double sigma2 = ((electrons + (setting.ReadNoiseElectron * setting.ReadNoiseElectron)) / (g * g)) + (1.0 / 12);
        double fixed2 = ((prnu * prnu) + (Mono.DsnuElectron * Mono.DsnuElectron)) / (g * g);
        Near(mean - Mono.BlackLevelDn, electrons / g, Math.Sqrt(((sigma2 / 2) + fixed2) / Pixels));
        Near(temporal, sigma2, sigma2 * Math.Sqrt(2.0 / Pixels));
        Near(spatial, fixed2, ((sigma2 / 2) + fixed2) * Math.Sqrt(2.0 / Pixels) + (sigma2 / 2 * Math.Sqrt(2.0 / Pixels)));
    }

    [Fact]
    public void Expose_FullWellBelowTheCeiling_StandsAtTheFullWell()
    {
        VirtualIso setting = Mono.At(100);
        (double mean, double temporal, _) = Pair(Mono, setting, 60_000);
        double g = setting.GainElectronPerDn;
        double sigma2 = (setting.ReadNoiseElectron * setting.ReadNoiseElectron / (g * g)) + (1.0 / 12);
        double error = Math.Sqrt(((sigma2 / 2) + (Mono.DsnuElectron * Mono.DsnuElectron / (g * g))) / Pixels);
        Near(mean - Mono.BlackLevelDn, Mono.FullWellElectron / g, error);
        Near(temporal, sigma2, sigma2 * Math.Sqrt(2.0 / Pixels));
    }

    [Fact]
    public void Expose_CeilingBelowTheFullWell_StandsAtTheLargestCode()
    {
        ushort[] codes = Frame(new VirtualCamera(Mono), Mono.At(800), 100_000, 1);
        Assert.All(codes, code => Assert.Equal(16_383, code));
    }

    [Fact]
    public void Expose_Channels_SeeTheirShareOfTheLight()
    {
        var body = new VirtualBody { WidthPixels = Width, HeightPixels = Height, ColourFilterArray = "GBRG" };
        ushort[] codes = Frame(new VirtualCamera(body), body.At(100), 2000, 1);
        foreach (SensorChannel channel in body.Filters.Channels)
        {
            (int firstRow, int firstColumn) = body.Filters.SitesOf(channel)[0];
            double sum = 0;
            for (int row = firstRow; row < Height; row += 2)
            {
                for (int column = firstColumn; column < Width; column += 2)
                {
                    sum += codes[(row * Width) + column];
                }
            }

            double expected = 2000 * body.ChannelSensitivity.Of(channel) / 2.6;
            Near((sum / (Pixels / 4)) - body.BlackLevelDn, expected, Math.Sqrt((expected / 2.6) + 40) / Math.Sqrt(Pixels / 4));
        }
    }

    [Fact]
    public void Expose_RowAndColumnNoise_IsSharedByRowsAndColumns()
    {
        VirtualIso setting = Mono.At(100) with { ReadNoiseElectron = 3 };
        VirtualBody body = Mono with { RowNoiseElectron = 2, ColumnNoiseElectron = 1, DsnuRowElectron = 1.5, IsoSettings = [setting] };
        var camera = new VirtualCamera(body);
        ushort[] a = Frame(camera, setting, 0, 1);
        ushort[] b = Frame(camera, setting, 0, 2);
        double[] difference = [.. a.Zip(b, (x, y) => (double)x - y)];
        double[] rows = [.. Enumerable.Range(0, Height).Select(row => difference.AsSpan(row * Width, Width).ToArray().Average())];
        double[] columns = [.. Enumerable.Range(0, Width).Select(column => Enumerable.Range(0, Height).Average(row => difference[(row * Width) + column]))];
        double g2 = 2.6 * 2.6;
        double pixel = (2 * (9 - 4 - 1) / g2) + (2.0 / 12);
        double rowVariance = (8 / g2) + (pixel / Width);
        double columnVariance = (2 / g2) + (pixel / Height);
        Near(Variance(rows), rowVariance, rowVariance * Math.Sqrt(2.0 / Height));
        Near(Variance(columns), columnVariance, columnVariance * Math.Sqrt(2.0 / Width));
        double total = (2 * 9 / g2) + (2.0 / 12);
        double totalError = 2 * Math.Sqrt((2.0 * (16.0 / (g2 * g2)) / Height) + (2.0 * total * total / Pixels));
        Near(Variance(difference), total, totalError);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Expose_MaskedMarginWithABlackOfItsOwn_IsOffByIt(double digitalFactor)
    {
        // Above 4,000 sites of 1.3 DN, twice that pushed: 0.04 DN.
        const double ShiftDn = -7;
        const double StandardErrorDn = 0.04;
        VirtualBody body = Mono with { MaskedLeftPixels = 32, MaskedTopPixels = 16, MaskedBlackShiftDn = ShiftDn };
        var camera = new VirtualCamera(body);
        ushort[] codes = Frame(camera, body.At(100) with { DigitalFactor = digitalFactor }, 0, 3);
        double MeanOf(PixelRectangle area) => Enumerable.Range(area.Y, area.Height).Average(row =>
            codes.AsSpan((row * camera.Layout.WidthPixels) + area.X, area.Width).ToArray().Average(code => (double)code));
        double active = MeanOf(camera.Layout.ActiveArea);

        Assert.All(camera.Layout.MaskedAreas, area => Near(MeanOf(area) - active, ShiftDn, StandardErrorDn));
    }

    [Fact]
    public void Expose_MaskedMargin_SeesNoLight()
    {
        VirtualBody body = Mono with { MaskedLeftPixels = 32, MaskedTopPixels = 16 };
        var camera = new VirtualCamera(body);
        ushort[] codes = Frame(camera, body.At(100), 5000, 3);
        foreach (PixelRectangle area in camera.Layout.MaskedAreas)
        {
            for (int row = area.Y; row < area.Bottom; row++)
            {
                for (int column = area.X; column < area.Right; column++)
                {
                    Assert.InRange(codes[(row * camera.Layout.WidthPixels) + column], 490, 535);
                }
            }
        }

        Assert.InRange(codes[^1], 2000, 3000);
    }

    [Fact]
    public void Expose_SameSeedAndNumber_SameFrameOnAnyThread()
    {
        var camera = new VirtualCamera(Mono);
        ushort[] alone = Frame(camera, Mono.At(100), 700, 9);
        ushort[][] together = [.. Enumerable.Range(7, 5).AsParallel().AsOrdered().Select(number => Frame(camera, Mono.At(100), 700, (ulong)number))];
        Assert.Equal(alone, together[2]);
        Assert.NotEqual(alone, together[1]);
    }

    [Fact]
    public void Expose_FieldThatFallsOff_IsDimInTheCorners()
    {
        VirtualBody body = Mono with { PrnuPercent = 0 };
        var exposure = new Exposure
        {
            Setting = body.At(100),
            LightElectron = 20_000,
            ExposureSeconds = 1,
            Seed = 1,
            FrameNumber = 1,
            Field = new FieldShape(0.4),
        };
        ushort[] codes = new ushort[Pixels];
        new VirtualCamera(body).Expose(exposure, codes);
        Assert.InRange(codes[0] - body.BlackLevelDn, (0.6 * 20_000 / 2.6) - 300, (0.6 * 20_000 / 2.6) + 300);
        Assert.InRange(codes[(Height / 2 * Width) + (Width / 2)] - body.BlackLevelDn, (20_000 / 2.6) - 300, (20_000 / 2.6) + 300);
    }

    [Fact]
    public void Expose_WrongLength_Throws() =>
        Assert.Throws<ArgumentException>(() => new VirtualCamera(Mono).Expose(
            new Exposure { Setting = Mono.At(100), LightElectron = 0, ExposureSeconds = 1, Seed = 1, FrameNumber = 1 },
            new ushort[5]));

    [Fact]
    public void SimulatedMosaicReader_RowsAtATime_DeliversTheFrameOnce()
    {
        var body = new VirtualBody { WidthPixels = 8, HeightPixels = 6 };
        ushort[] codes = [.. Enumerable.Range(0, 48).Select(i => (ushort)i)];
        var frame = new RawFrame { Metadata = new FrameMetadata(), Layout = body.Layout() };
        using var reader = new SimulatedMosaicReader(frame, codes);
        var rows = new ushort[48];
        reader.ReadRows(rows.AsSpan(0, 16));
        reader.ReadRows(rows.AsSpan(16, 32));
        Assert.Equal(codes, rows);
        Assert.Throws<ArgumentException>(() => reader.ReadRows(rows.AsSpan(0, 8)));
        Assert.Throws<ArgumentException>(() => reader.ReadRows(rows.AsSpan(0, 7)));
    }

    private static ushort[] Frame(VirtualCamera camera, VirtualIso setting, double electrons, ulong number)
    {
        var codes = new ushort[camera.PixelCount];
        camera.Expose(
            new Exposure { Setting = setting, LightElectron = electrons, ExposureSeconds = 0.01, Seed = 77, FrameNumber = number },
            codes);
        return codes;
    }

    private static (double Mean, double Temporal, double Spatial) Pair(VirtualBody body, VirtualIso setting, double electrons)
    {
        var camera = new VirtualCamera(body);
        ushort[] a = Frame(camera, setting, electrons, 1);
        ushort[] b = Frame(camera, setting, electrons, 2);
        double[] mean = [.. a.Zip(b, (x, y) => 0.5 * (x + y))];
        double temporal = 0.5 * Variance([.. a.Zip(b, (x, y) => (double)x - y)]);
        return (mean.Average(), temporal, Variance(mean) - (temporal / 2));
    }

    private static double Variance(double[] values)
    {
        double mean = values.Average();
        return values.Sum(value => (value - mean) * (value - mean)) / (values.Length - 1);
    }

    private static void Near(double value, double expected, double standardError) =>
        Assert.InRange(value, expected - (StandardErrors * standardError), expected + (StandardErrors * standardError));
}
