using SensorLab.Profiles;

namespace SensorLab.Law.Tests;

public sealed class PublishedModelTests
{
    // Exact but for the last bits of sums and products.
    private const double Exact = 1e-9;

    private static readonly ChannelProfile Straight = new()
    {
        Name = ChannelName.FirstGreen,
        BlackLevelDn = Of(512),
        GainElectronPerDn = Of(2.5),
        ReadNoiseDn = Of(3),
        ReadNoiseElectron = Of(7.5),
        SaturationDn = Of(10_000),
        DsnuElectron = Of(5),
        PrnuPercent = Of(1),
        MiddleGreyDn = Of(1_000),
        Latitude = new ChannelLatitude(),
    };

    // By hand: 3² + 1/12 + 1000/2.5 temporal, (5/2.5)² + (0.01·1000)² fixed.
    [Fact]
    public void Variances_StraightResponse_AreThePublishedFigures()
    {
        NoiseModel model = ModelOf(Straight)!;

        Assert.Equal(9 + (1 / 12.0) + 400, model.TemporalVarianceAt(1_000), Exact);
        Assert.Equal(9 + (1 / 12.0) + 400 + 4 + 100, model.TotalVarianceAt(1_000), Exact);
        Assert.Equal((1_000, 10_000), (model.GreySignalDn, model.SaturationSignalDn));
    }

    // 8 % missing at 10 000 DN of 10 000 recorded: a straight response would give 10 000/0.92, and shot noise there has
    // the slope's square, 0.92⁴, of the straight response's.
    [Fact]
    public void Variances_BentResponse_HaveItsSlope()
    {
        NoiseModel model = ModelOf(Straight with { CompressionPercent = Of(8) })!;

        Assert.Equal(10_000 / 0.92, model.SaturationLinearDn, Exact);
        Assert.Equal(9 + (1 / 12.0) + (10_000 / 0.92 * Math.Pow(0.92, 4) / 2.5), model.TemporalVarianceAt(10_000), Exact);
    }

    [Fact]
    public void Of_NoGainOrABound_IsNone()
    {
        Assert.Null(ModelOf(Straight with { GainElectronPerDn = null }));
        Assert.Null(ModelOf(Straight with { ReadNoiseDn = Figure.UpperBound(3) }));
    }

    [Fact]
    public void Values_NotPublished_AreNotANumber()
    {
        NoiseModel model = ModelOf(Straight with { PrnuPercent = Figure.UpperBound(1), SaturationDn = Figure.LowerBound(9_000) })!;

        Assert.Equal(9 + (1 / 12.0), model.TemporalVarianceAt(0), Exact);
        Assert.Equal(double.NaN, model.TotalVarianceAt(100));
        Assert.Null(model.Evaluate(m => m.SaturationLinearDn));
    }

    // Steps of 4 in the dark; the bright level's wider ones are not the model's.
    [Fact]
    public void Variances_WideCodes_HoldTheDarkFramesRounding()
    {
        IsoProfile iso = Iso(Straight) with { Levels = [Level("bracket", 16), Level("dark", 4)] };

        Assert.Equal(9 + (16 / 12.0), PublishedModel.Of(iso, Straight)!.TemporalVarianceAt(0), Exact);
    }

    [Fact]
    public void Pooled_Greens_IsTheMeanOfTheirParameters()
    {
        ChannelProfile second = Straight with { Name = ChannelName.SecondGreen, GainElectronPerDn = Of(2), MiddleGreyDn = Of(1_100) };
        NoiseModel pooled = PublishedModel.Pooled(Iso(Straight, second, second with { Name = ChannelName.Red, MiddleGreyDn = Of(1) }))!;

        Assert.Equal((0.4 + 0.5) / 2, pooled[NoiseParameter.GainDnPerElectron], Exact);
        Assert.Equal(1_050, pooled.GreySignalDn, Exact);
        Assert.Null(PublishedModel.Pooled(Iso(Straight, second with { GainElectronPerDn = null })));
        Assert.Null(PublishedModel.Pooled(Iso()));
    }

    // By hand for a straight response: S² = 100·(σ² + δ² + S/2.5 + (0.01·S)²), σ² + δ² = 13.0833.
    [Fact]
    public void Latitude_StraightResponse_IsRatiosOfSignals()
    {
        NoiseModel model = ModelOf(Straight)!;
        double signal = (40 + Math.Sqrt((40 * 40) + (4 * 0.99 * 100 * (13 + (1 / 12.0))))) / (2 * 0.99);

        Assert.Equal(Math.Log2(10), model.AboveEv(), Exact);
        Assert.Equal(Math.Log2(1_000 / signal), model.BelowEv(10), Exact);
        Assert.Equal(Math.Log2(10_000 / signal), model.SpanEv(10), Exact);
        Assert.InRange(model.FirstClipEv(), Math.Log2(9), Math.Log2(10));
    }

    private static NoiseModel? ModelOf(ChannelProfile channel) => PublishedModel.Of(Iso(channel), channel);

    private static IsoProfile Iso(params ChannelProfile[] channels) => new() { Iso = 100, Channels = channels, Latitude = new IsoLatitude(), SnrCurve = [], Levels = [], Previews = [] };

    private static LevelRecord Level(string role, double stepDn) => new()
    {
        Role = role,
        ExposureSeconds = 1,
        Frames = 2,
        PixelsPerChannel = 100,
        Channels = [new LevelChannel { Name = ChannelName.FirstGreen, MeanDn = 600, CodeStepDn = stepDn }],
    };

    private static Figure Of(double value) => Figure.Normal(value, 0.001 * value);
}
