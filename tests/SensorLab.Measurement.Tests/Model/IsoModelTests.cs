using SensorLab.Law;
using SensorLab.Measurement.Model;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Model;

/// <summary>The one fit of an ISO on records whose answer is known without it.</summary>
public sealed class IsoModelTests
{
    private const double Pixels = 10_000;

    /// <summary>Dark 4 DN², 504 DN² at 1000 DN: K = ½, read noise √(4 − 1/12).</summary>
    [Fact]
    public void Of_DarkAndOneLitLevel_IsTheLineThroughThem()
    {
        ChannelModel channel = Assert.Single(IsoModel.Of([Level("dark", 0.01, [512, 512], 4, "Y"), Level("bracket", 0.01, [1512, 1512], 504, "Y")]).Channels);

        Assert.Equal(0.5, channel.Noise[NoiseParameter.GainDnPerElectron], 1e-9);
        Assert.Equal(4, channel.Noise[NoiseParameter.InterceptDn2], 1e-9);
        Assert.Equal(2, channel.FitLevels.Count);
    }

    /// <summary>With two points the slope's variance is (u₁² + u₂²)/S²; black moves the lit one by K·u(b).</summary>
    [Fact]
    public void Of_DarkAndOneLitLevel_PropagatesTheirUncertainties()
    {
        ChannelModel channel = IsoModel.Of([Level("dark", 0.01, [512, 512], 4, "Y"), Level("bracket", 0.01, [1512, 1512], 504, "Y")]).Channels[0];

        // The variance of a variance: 2σ⁴/ν and the photons' fourth cumulant K³S over the values.
        double dark = 2 * 16 / Degrees;
        double lit = (2 * 504.0 * 504 / Degrees) + (0.125 * 1000 / (2 * Pixels));
        double black = channel.Noise.Evaluate(n => n[NoiseParameter.BlackDn])!.Value.StandardUncertainty;
        Estimate gain = channel.Noise.Evaluate(n => n[NoiseParameter.GainDnPerElectron])!.Value;
        Assert.Equal((dark + lit + (0.25 * black * black)) / 1e6, gain.Variance, 1e-3 * gain.Variance);
    }

    /// <summary>A level alone, all of it clipped or on a plateau, is no photon transfer.</summary>
    [Fact]
    public void Of_ClippedLevelAlone_HasNoLine()
    {
        LevelRecord clipped = Level("bracket", 0.01, [4095, 4095], 0.1, "Y");
        clipped = clipped with { Channels = [clipped.Channels[0] with { ClippedFraction = 1, HighestCodeDn = 4095 }] };

        ChannelModel channel = IsoModel.Of([Level("dark", 0.01, [512, 512], 4, "Y"), clipped]).Channels[0];

        Assert.Null(channel.PhotonTransfer);
        Assert.Null(channel.Noise.Evaluate(n => n[NoiseParameter.GainDnPerElectron]));
        Assert.Equal(512, channel.Noise[NoiseParameter.BlackDn], 1e-9);
    }

    /// <summary>Black that drifts by 5 DN moves both greens at once: their mean knows it no better than one of them.</summary>
    [Fact]
    public void Pooled_BlackThatDrifts_IsNoBetterKnownThanInOneChannel()
    {
        double[] means = [507, 512, 517, 512];
        LevelRecord[] levels =
        [
            Level("dark", 0.01, means, 4, "G1", "G2"),
            .. new[] { 200.0, 800, 3000 }.Select(s => Level("bracket", s / 1e5, [512 + s, 512 + s], 4 + (s / 2), "G1", "G2")),
        ];
        IsoModel model = IsoModel.Of(levels);

        Estimate one = model.Channels[0].Noise.Evaluate(n => n[NoiseParameter.BlackDn])!.Value;
        Estimate both = model.Pooled.Evaluate(n => n[NoiseParameter.BlackDn])!.Value;

        Assert.InRange(both.StandardUncertainty / one.StandardUncertainty, 0.95, 1);
        Assert.Equal(3, both.DegreesOfFreedom, 0.5);
    }

    /// <summary>A body that warms: black of all lit frames lies 3 DN above that of the dark ones, which scatter by 4 DN. The line stays where it is. Each level's own drift keeps a tenth of the shift from being told.</summary>
    [Fact]
    public void Of_BlackThatDrifts_FindsWhereItLayInLitFrames()
    {
        LevelRecord[] levels =
        [
            Level("dark", 0.01, [507, 512, 517, 512], 4, "G1", "G2"),
            .. new[] { 10.0, 30, 100, 300, 1000, 3000 }.Select(s => Level("bracket", s / 1e5, [515 + s, 515 + s], 4 + (s / 2), "G1", "G2")),
        ];

        ChannelModel channel = IsoModel.Of(levels).Channels[0];

        Assert.InRange(channel.BlackDrift.LitShiftDn, 2.6, 3);
        Assert.Equal(0.5, channel.Noise[NoiseParameter.GainDnPerElectron], 0.001);
        Assert.Equal(4, channel.Noise[NoiseParameter.InterceptDn2], 0.01);
        Assert.Equal(512, channel.Noise[NoiseParameter.BlackDn], 1e-6);
        Assert.Equal(0, IsoModel.Of([Level("dark", 0.01, [512, 512, 512, 512], 4, "G1", "G2"), .. levels[1..]]).Channels[0].BlackDrift.LitShiftDn, 0.01);
    }

    /// <summary>
    /// Dark frames with a noise of 16 DN² where lit ones leave 4: the intercept lies by the dark ones, and its uncertainty holds the other.
    /// Black, which drifts by 0.3 DN, is not taken to have lain 24 DN higher in lit frames, whose darkest has 2 DN of light.
    /// </summary>
    [Theory]
    [InlineData(511.7, 512.3)]
    [InlineData(512, 512)]
    public void WithDoubtOfUnlitNoise_DarkFramesThatAreNoisier_HoldsBoth(double first, double second)
    {
        LevelRecord[] levels = [Level("dark", 0.01, [first, second, second, first], 16, "G1", "G2"), .. Lit(0)];

        IsoModel model = IsoModel.Of(levels);
        Estimate intercept = model.WithDoubtOfUnlitNoise().Channels[0].Noise.Evaluate(n => n[NoiseParameter.InterceptDn2])!.Value;

        Assert.Equal(0, model.Channels[0].BlackDrift.LitShiftDn, 0.5);
        Assert.InRange(intercept.StandardUncertainty, 6, 8);
        Assert.InRange(Math.Abs(intercept.Value - 4), 0, 2 * intercept.StandardUncertainty);
    }

    /// <summary>Where dark and lit frames agree, nothing is left open; nor where the lit ones leave their own curve, which then does not tell where it begins.</summary>
    [Theory]
    [InlineData(4, 0)]
    [InlineData(5, 200)]
    public void WithDoubtOfUnlitNoise_WitnessesThatAgreeOrDoNotTell_AddsNothing(double darkDn2, double scatterDn2)
    {
        IsoModel model = IsoModel.Of([Level("dark", 0.01, [512, 512, 512, 512], darkDn2, "G1", "G2"), .. Lit(scatterDn2)]);

        Assert.Same(model, model.WithDoubtOfUnlitNoise());
    }

    /// <summary>Of two dark levels one has rows that share 3 DN² and the other has not: read noise may have them or not.</summary>
    [Fact]
    public void WithDoubtOfUnlitNoise_RowsOfOneDarkLevel_HoldsBoth()
    {
        LevelRecord quiet = Level("dark", 0.01, [512, 512], 4, "G1", "G2");
        LevelRecord banded = quiet with { ExposureSeconds = 1, Channels = [.. quiet.Channels.Select(c => c with { TemporalParts = c.TemporalParts! with { RowDn2 = 3, RowUncertaintyDn2 = 0.3 } })] };

        IsoModel model = IsoModel.Of([quiet, banded, .. Lit(0)]).WithDoubtOfUnlitNoise();

        Estimate rows = model.Channels[0].Noise.Evaluate(n => n[NoiseParameter.RowDn2])!.Value;
        Assert.Equal(3 / Math.Sqrt(3), rows.StandardUncertainty, 0.2);
    }

    /// <summary>Two dark levels whose variances differ fiftyfold pull the line to and fro; it settles near the slope that all lit levels have.</summary>
    [Fact]
    public void Of_DarkLevelsThatContradict_Settles()
    {
        double[] signals = [0.4, 1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 1024, 2048];
        LevelRecord[] levels =
        [
            Level("dark", 0.01, [100, 100, 100, 100], 0.25, "G1", "G2"),
            Level("dark", 1, [100, 100, 100.1, 100], 13, "G1", "G2"),
            .. signals.Select(s => Level("bracket", s / 1e5, [100 + s, 100 + s], 0.25 + (0.11 * s), "G1", "G2")),
        ];

        Assert.All(IsoModel.Of(levels).Channels, c => Assert.InRange(c.PhotonTransfer!.GainDnPerElectron, 0.08, 0.14));
    }

    /// <summary>A pattern that grows as D² + P²·S² scatters about its law by chance; one with a part of S⁴ does not, and DSNU and PRNU are as much less certain.</summary>
    [Theory]
    [InlineData(0, 1, 1)]
    [InlineData(1e-10, 5, 1000)]
    public void PatternScatter_PatternThatLeavesItsLaw_IsToldAndCarried(double fourth, double least, double most)
    {
        LevelRecord[] levels = [Level("dark", 0.01, [512, 512, 512, 512], 4, "G1", "G2"), .. Lit(0).Select(l => WithPattern(l, fourth))];

        ChannelModel channel = IsoModel.Of(levels).Channels[0];
        Estimate prnu = channel.Noise.Evaluate(n => n[NoiseParameter.PixelPrnuSquare])!.Value;

        Assert.InRange(channel.PatternScatter, least, most);
        Assert.InRange(prnu.StandardUncertainty / prnu.Value, fourth == 0 ? 0.01 : 0.1, fourth == 0 ? 0.06 : 1);
    }

    private static LevelRecord WithPattern(LevelRecord level, double fourth)
    {
        double signal = level.Channels[0].MeanDn - 512;
        double pattern = 1 + (1e-4 * signal * signal) + (fourth * Math.Pow(signal, 4));
        double noise = level.Channels[0].TemporalParts!.PixelDn2;
        return level with { Channels = [.. level.Channels.Select(c => c with { FixedPatternParts = Parts(pattern, 0.015 * (pattern + noise)) })] };
    }

    /// <summary>Eight lit levels whose variance is 4 DN² and half the signal, every second one off by as much.</summary>
    private static LevelRecord[] Lit(double offDn2) =>
        [.. new[] { 2.0, 30, 100, 300, 700, 1200, 2000, 3000 }.Select((s, i) => Level("bracket", s / 1e5, [512 + s, 512 + s], 4 + (s / 2) + (i % 2 == 0 || s < 100 ? 0 : offDn2 * s / 3000), "G1", "G2"))];

    private const double Degrees = 10_000;

    private static LevelRecord Level(string role, double seconds, double[] meansDn, double varianceDn2, params string[] channels) => new()
    {
        Role = role,
        ExposureSeconds = seconds,
        Frames = meansDn.Length,
        PixelsPerChannel = (long)Pixels,
        RowsPerChannel = 100,
        Channels = [.. channels.Select(name => MadeUpLevels.Channel(name, meansDn.Average(), varianceDn2) with
        {
            FrameMeansDn = meansDn,
            TemporalParts = Parts(varianceDn2, varianceDn2 * Math.Sqrt(2 / Degrees)),
            FixedPatternParts = Parts(1, 0.02),
        })],
    };

    private static VarianceParts Parts(double pixelDn2, double uncertaintyDn2) => new()
    {
        PixelDn2 = pixelDn2,
        PixelUncertaintyDn2 = uncertaintyDn2,
        RowDn2 = 0,
        RowUncertaintyDn2 = 0.001,
        ColumnDn2 = 0,
        ColumnUncertaintyDn2 = 0.001,
    };
}
