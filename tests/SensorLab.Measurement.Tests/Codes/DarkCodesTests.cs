using MathNet.Numerics.Distributions;
using SensorLab.Law;
using SensorLab.Measurement.Codes;
using SensorLab.Measurement.Tests.Findings;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Codes;

/// <summary>Dark values fitted code by code, whose rows, columns and frames share noise or pattern.</summary>
public sealed class DarkCodesTests
{
    /// <summary>Standard uncertainties that the error of a single set stays within: section 11 of the measurement model.</summary>
    private const double Deviations = 5;

    public static TheoryData<string> Kinds => ["coarse", "cut off"];

    // Left out, 0.6 of 1.44 e⁻ make read noise 9 % too small and pass for DSNU.
    [Theory]
    [MemberData(nameof(Kinds))]
    public void Characterise_RowNoise_IsReadNoiseAndNotPattern(string kind)
    {
        VirtualBody body = Body(kind) with { RowNoiseElectron = 0.6 };

        Assert.All(Channels(body, 1), c =>
        {
            AssertNear(body.BlackLevelDn, c.BlackLevelDn!);
            AssertNear(body.At(100).ReadNoiseElectron, c.ReadNoiseElectron!);
            AssertNear(0.6, c.RowNoiseElectron!);
            AssertHolds(body.DsnuElectron, c.DsnuElectron!);
        });
    }

    // At a high ISO the noise spreads over hundreds of codes: three of them are taken together here.
    [Fact]
    public void Characterise_WideNoiseCutOff_IsFittedInCoarserSteps()
    {
        VirtualBody body = RehearsedSet.SmallBody with
        {
            BlackLevelDn = 60,
            DsnuElectron = 1,
            IsoSettings = [RehearsedSet.SmallBody.At(100) with { GainElectronPerDn = 0.05, ReadNoiseElectron = 5 }],
        };

        Assert.All(Channels(body, 1), c =>
        {
            AssertNear(body.BlackLevelDn, c.BlackLevelDn!);
            AssertNear(body.At(100).ReadNoiseElectron, c.ReadNoiseElectron!);
            Assert.Equal(5, c.ReadNoiseElectron!.Value!.Value, 0.15);
        });
    }

    // Black is as uncertain as few lines make it: their pattern moves it by up to ten times what pixels would.
    [Theory]
    [MemberData(nameof(Kinds))]
    public void Characterise_BandedPattern_IsInTheUncertaintyOfBlack(string kind)
    {
        VirtualBody body = Body(kind) with { DsnuRowElectron = 0.6, DsnuColumnElectron = 0.6 };

        Assert.All(Enumerable.Range(1, 3).SelectMany(seed => Channels(body with { PatternSeed = (ulong)seed }, (ulong)seed)), c =>
        {
            AssertNear(body.BlackLevelDn, c.BlackLevelDn!);
            AssertNear(body.At(100).ReadNoiseElectron, c.ReadNoiseElectron!);
        });
    }

    // Single values far out, where the pattern's places end: weighed as if known by far too well, they led the fit astray.
    [Theory]
    [InlineData(2005)]
    [InlineData(2009)]
    public void Characterise_RowsThatVaryByMoreThanPixels_LeavesReadNoiseAndPattern(ulong seed)
    {
        VirtualBody body = RehearsedSet.BandedSixBySix(seed) with { IsoSettings = [RehearsedSet.SmallBody.At(400) with { Iso = 100, ReadNoiseElectron = 0.33 }] };

        Assert.All(Channels(body, seed), c =>
        {
            AssertNear(body.BlackLevelDn, c.BlackLevelDn!);
            AssertNear(body.At(100).ReadNoiseElectron, c.ReadNoiseElectron!);
            AssertHolds(body.DsnuElectron, c.DsnuElectron!);
        });
    }

    // Lit levels whose codes are coarse have no place on the line, and none among the witnesses of an excess.
    [Fact]
    public void Examine_CoarseBodyWithoutAFlaw_WarnsOfNothing()
    {
        for (ulong seed = 1; seed <= 3; seed++)
        {
            Assert.DoesNotContain(RehearsedSet.Examine([], RehearsedSet.CoarseBody, seed), f => f.Severity != FindingSeverity.Note);
        }
    }

    // Cut off in the middle of a distribution half the values answer, which leaves a quarter of a variance; a fiftieth is for the sums over places and edges.
    [Theory]
    [InlineData(20, null, 1)]
    [InlineData(20, 512.0, 0.25)]
    public void ShrinkingOf_FineNoise_IsTheSquareOfTheWholeShare(double deviation, double? floor, double expected)
    {
        Assert.Equal(expected, Distribution(512, deviation).ShrinkingOf(1e-6, floor), 0.02 * expected);
    }

    /// <summary>On a code only the two edges half a step away answer: the density there, summed.</summary>
    [Fact]
    public void ShrinkingOf_NoiseOfAQuarterStepOnACode_IsTheSquareOfTheDensityAtTheEdges()
    {
        double density = 2 * Normal.PDF(0, 0.25, 0.5);

        Assert.Equal(density * density, Distribution(100, 0.25).ShrinkingOf(1e-6, null), 1e-3);
    }

    /// <summary>Lines of many pixels, drawn and rounded: 4000 tell a variance to 2.2 %, of which a tenth is over four deviations.</summary>
    [Theory]
    [InlineData(100.25, 0.24, 0.1)]
    [InlineData(100.5, 0.24, 0.15)]
    [InlineData(100.0, 0.3, 0.2)]
    public void ShrinkingOf_SharedNoise_IsWhatDrawnLinesShow(double black, double own, double shared)
    {
        const int lines = 4000;
        const int pixels = 400;
        var random = new Random(1);
        double[] means = new double[lines];
        double within = 0;
        for (int line = 0; line < lines; line++)
        {
            double place = Normal.Sample(random, black, shared);
            double[] codes = [.. Enumerable.Range(0, pixels).Select(_ => Math.Round(Normal.Sample(random, place, own)))];
            means[line] = codes.Average();
            within += codes.Sum(c => (c - means[line]) * (c - means[line])) / (pixels - 1) / lines;
        }

        double mean = means.Average();
        double variance = means.Sum(m => (m - mean) * (m - mean)) / (lines - 1);
        double expected = (variance - (within / pixels)) / (shared * shared);

        Assert.Equal(expected, Distribution(black, double.Hypot(own, shared)).ShrinkingOf(shared * shared, null), 0.1 * expected);
    }

    private static VirtualBody Body(string kind) => kind == "coarse"
        ? RehearsedSet.CoarseBody
        : RehearsedSet.SmallBody with
        {
            BitDepth = 12,
            BlackLevelDn = 1.2,
            DsnuElectron = 1,
            IsoSettings = [RehearsedSet.SmallBody.At(100) with { GainElectronPerDn = 2, ReadNoiseElectron = 3 }],
        };

    private static IReadOnlyList<ChannelProfile> Channels(VirtualBody body, ulong seed) => RehearsedSet.Evidence([], body, seed)[0].Profile.Channels;

    private static RoundedNormal Distribution(double mean, double deviation) =>
        new(new Estimate(mean, 0), default, new Estimate(deviation * deviation, 0), default, default);

    private static void AssertNear(double truth, Figure figure) =>
        Assert.InRange((figure.Value!.Value - truth) / figure.StandardUncertainty!.Value, -Deviations, Deviations);

    private static void AssertHolds(double truth, Figure figure)
    {
        double half = Deviations / 1.96;
        double? value = figure.Value;
        Assert.InRange(
            truth,
            value is null ? 0 : value.Value - (half * (value.Value - figure.Lower95!.Value)),
            value is null ? half * figure.AtMost!.Value : value.Value + (half * (figure.Upper95!.Value - value.Value)));
    }
}
