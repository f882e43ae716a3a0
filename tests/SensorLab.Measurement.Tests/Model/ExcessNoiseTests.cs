using SensorLab.Law;
using SensorLab.Measurement.Findings;
using SensorLab.Measurement.Model;
using SensorLab.Measurement.Tests.Findings;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Model;

/// <summary>A noise that hides in gain is carried by gain's uncertainty, or named; where there is none, hardly anything changes.</summary>
public sealed class ExcessNoiseTests
{
    /// <summary>Sets a size: enough that a change that lets one in ten pass silently is seen in seven runs of eight.</summary>
    private const int Sets = 20;

    /// <summary>What a gain may be off in stated uncertainties: section 11 of the measurement model.</summary>
    private const double Deviations = 5;

    /// <summary>One channel of few photosites: nothing to average over, and the line's test has little power.</summary>
    private static VirtualBody Body => RehearsedSet.SmallBody with
    {
        ColourFilterArray = "monochrome", WidthPixels = 120, HeightPixels = 80, BitDepth = 12, BlackLevelDn = 128.5, PrnuPercent = 0.9,
        IsoSettings = [new VirtualIso { Iso = 400, GainElectronPerDn = 1.875, ReadNoiseElectron = 6.5, MiddleGreyElectron = 825 }],
    };

    [Fact]
    public void Excess_ThatTheLineHardlyShows_MovesNoGainSilently()
    {
        for (ulong seed = 1; seed <= Sets; seed++)
        {
            IsoEvidence evidence = Assert.Single(RehearsedSet.Evidence(["model-rejected=0.003"], Body with { PatternSeed = seed }, seed, 400));
            Figure gain = evidence.Profile.Channels[0].GainElectronPerDn!;
            double off = Math.Abs(gain.Value!.Value - 1.875) / gain.StandardUncertainty!.Value;
            Assert.True(off < Deviations || IsoChecks.Examine([evidence]).Any(f => f.Code == FindingCode.ModelRejected), $"seed {seed}: {off:F1} u");
        }
    }

    [Fact]
    public void Excess_ThatIsNotThere_HardlyWidensGain()
    {
        double[] factors = [.. Enumerable.Range(1, Sets).Select(seed =>
        {
            ChannelModel channel = RehearsedSet.Evidence([], Body with { PatternSeed = (ulong)seed }, (ulong)seed, 400)[0].Channels[0];
            return UncertaintyOf(channel) / Math.Sqrt(channel.PhotonTransfer!.GainVariance);
        })];

        // The largest factor is the class's own; the mean is what doubt costs every owner of a sound body.
        Assert.InRange(factors.Max(), 1, 1.2001);
        Assert.InRange(factors.Average(), 1, 1.03);
    }

    [Theory]
    [InlineData(0, 1, 1.01)]
    [InlineData(-4, 1, 1.0001)]
    [InlineData(2, 1.01, 1.2)]
    [InlineData(2.4, 1.1, 1.2001)]
    public void Doubt_OfAnExcess_GrowsWithItsDeviationsUpToItsLimit(double deviations, double lowest, double highest)
    {
        ChannelModel channel = RehearsedSet.Evidence([], Body, 1, 400)[0].Channels[0];
        double uncertainty = ExcessNoise.Of([channel], _ => 0)!.Square.StandardUncertainty;
        double variance = channel.PhotonTransfer!.GainVariance;
        double shift = Math.Abs(channel.GainShiftOfExcess);

        double doubt = new ExcessNoise(new Estimate(deviations * uncertainty, uncertainty)).DoubtOf(shift, variance);

        Assert.InRange(Math.Sqrt(1 + (doubt * doubt * shift * shift / variance)), lowest, highest);
    }

    // Where model-rejected says that it is there, gain is off by it, and carries all of it.
    [Fact]
    public void Doubt_OfAnExcessThatIsThere_IsTheExcess() =>
        Assert.InRange(new ExcessNoise(new Estimate(1e-5, 1e-6)).DoubtOf(1, 1e-20), 0.9e-5, 1.1e-5);

    /// <summary>A parabola from the origin is met by a line that is steeper.</summary>
    [Fact]
    public void GainShiftOfExcess_OfAChannel_IsAbove0() =>
        Assert.True(RehearsedSet.Evidence([], Body, 1, 400)[0].Channels[0].GainShiftOfExcess > 0);

    private static double UncertaintyOf(ChannelModel channel) =>
        channel.Noise.Evaluate(n => n[NoiseParameter.GainDnPerElectron])!.Value.StandardUncertainty;
}
