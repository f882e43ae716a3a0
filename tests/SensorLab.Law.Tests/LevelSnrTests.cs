using SensorLab.Profiles;

namespace SensorLab.Law.Tests;

public sealed class LevelSnrTests
{
    private const double Exact = 1e-9;

    private static readonly ChannelProfile[] Channels =
    [
        .. new[] { "R", "G1", "G2", "B" }.Select(name => new ChannelProfile { Name = name, BlackLevelDn = Figure.Normal(100, 0), SaturationDn = Figure.Normal(1_000, 0), Latitude = new ChannelLatitude() }),
    ];

    // Greens: signals 200 and 220, variances 90 and 110 with fixed pattern 25 each.
    private static readonly LevelRecord Level = new()
    {
        Role = "bracket",
        ExposureSeconds = 1,
        Frames = 2,
        PixelsPerChannel = 100,
        Channels = [Measured("R", 9_999, 1), Measured("G1", 300, 90), Measured("G2", 320, 110), Measured("B", 0, 1)],
    };

    [Fact]
    public void Of_Greens_AveragesSignalsAndVariances()
    {
        Assert.Equal(210 / Math.Sqrt(100), LevelSnr.Of(Level, Channels, total: false)!.Value.Snr, Exact);
        Assert.Equal(210 / Math.Sqrt(125), LevelSnr.Of(Level, Channels, total: true)!.Value.Snr, Exact);
    }

    // Each green's variance is known to √(3² + 4²): the mean of both to 5/√2.
    [Fact]
    public void Interval_OfTheVariances_IsNormal()
    {
        LevelSnr snr = LevelSnr.Of(Level, Channels, total: false)!.Value;
        double widest = 1.959963985 * 5 / Math.Sqrt(2) / 100;

        Assert.Equal(210 / Math.Sqrt(100 * (1 + widest)), snr.Lower95!.Value, 6);
        Assert.Equal(210 / Math.Sqrt(100 * (1 - widest)), snr.Upper95!.Value, 6);
    }

    // 10 % of compression at 1000 DN: at S a step of light makes 1 − S/10 000 of its share.
    [Fact]
    public void Of_BentResponse_CountsItsSlope()
    {
        ChannelProfile[] bent = [.. Channels.Select(c => c with { CompressionPercent = Figure.Normal(10, 0) })];

        double signal = ((200 * 0.98) + (220 * 0.978)) / 2;
        Assert.Equal(signal / Math.Sqrt(100), LevelSnr.Of(Level, bent, total: false)!.Value.Snr, Exact);
    }

    [Fact]
    public void Of_NothingToTell_IsNone()
    {
        Assert.Null(LevelSnr.Of(Level with { Channels = [Measured("G1", 50, 90)] }, Channels, total: false));
        Assert.Null(LevelSnr.Of(Level with { Channels = [Measured("G1", 300, 90) with { TemporalVarianceDn2 = null }] }, Channels, total: false));
        Assert.Null(LevelSnr.Of(Level, [.. Channels.Select(c => c with { BlackLevelDn = null })], total: false));
    }

    private static LevelChannel Measured(string name, double meanDn, double varianceDn2) => new()
    {
        Name = name,
        MeanDn = meanDn,
        TemporalVarianceDn2 = varianceDn2,
        TemporalParts = LevelVarianceTests.Parts(3, 4, 0),
        FixedPatternVarianceDn2 = 25,
        FixedPatternParts = LevelVarianceTests.Parts(1, 0, 0),
    };
}
