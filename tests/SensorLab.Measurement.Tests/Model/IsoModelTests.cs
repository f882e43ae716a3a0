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
