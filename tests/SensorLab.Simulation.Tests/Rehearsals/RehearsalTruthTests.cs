using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Tests.Rehearsals;

public sealed class RehearsalTruthTests
{
    // The published truths of the foreign sets, ../shared/foreign-sets: bodies like those must have the same.
    // Agreement is of doubles printed with 16 digits.
    private const double Digits = 1e-9;

    [Theory]
    [InlineData(14, 600, 40_000, 2.6, 3.1, 0.4, 4700, 15384.615384615385, 3.089267338097087, 1.460298669447858, 5.419633933596658, 10.290292546413495)]
    [InlineData(14, 600, 40_000, 0.66, 2.2, 0.4, 1180, 15783.0, 3.142050620790471, -0.5291342662192966, 3.488026810078018, 8.719527271492716)]
    [InlineData(12, 100.25, 40_000, 6.0, 1.5, 0.12, 2900, 3994.75, 3.0470148195175892, 0.767939693362943, 4.78244545361124, 9.991716753805788)]
    [InlineData(14, 512, 60_000, 2.6, 3.1, 0.4, 4700, 15871.0, 3.134171993719833, 1.460298669447858, 5.419633933596658, 10.290292546413495)]
    public void Of_BodiesOfTheForeignSets_IsTheirPublishedTruth(
        int bits, double black, double fullWell, double gain, double read, double dsnu, double grey, double saturation, double above, double snr40, double snr10, double snr1)
    {
        var body = new VirtualBody
        {
            BitDepth = bits,
            BlackLevelDn = black,
            FullWellElectron = fullWell,
            DsnuElectron = dsnu,
            IsoSettings = [new VirtualIso { Iso = 100, GainElectronPerDn = gain, ReadNoiseElectron = read, MiddleGreyElectron = grey }],
            Shooting = new ShootingHabits { MeterStepEv = 0 },
        };
        IsoTruth truth = Assert.Single(RehearsalTruth.Of(RehearsalPlan.Of(new RehearsalOptions { Body = body, IsoValues = [100] })));
        Assert.Equal(saturation, truth.SaturationDn, Digits);
        Assert.Equal(above, truth.AboveEv!.Value, Digits);
        Assert.Equal(snr40, truth.BelowEv["snr40"], Digits);
        Assert.Equal(snr10, truth.BelowEv["snr10"], Digits);
        Assert.Equal(snr1, truth.BelowEv["snr1"], Digits);
    }

    /// <summary>Codes c that are doubled about 512.25 are all rounded one way, ⌊512.25 + 2·(c − 512.25) + ½⌋ = 2·c − 512; 0.6 codes of noise leave 0.0005 of the first rounding.</summary>
    [Theory]
    [InlineData(1, 512.25)]
    [InlineData(2, 512.5)]
    public void Of_DigitalPushByTwo_HasTheBlackOfThePushedCodes(double factor, double black) =>
        Assert.Equal(black, Assert.Single(RehearsalTruth.Of(Pushed(factor))).BlackLevelDn, 2e-3);

    /// <summary>A frame of 384,000 photosites tells its mean to a hundredth of a code.</summary>
    [Theory]
    [InlineData(1.25)]
    [InlineData(1.5)]
    [InlineData(2)]
    [InlineData(4)]
    public void Of_DigitalPush_HasTheBlackOfTheFrames(double factor)
    {
        RehearsalPlan plan = Pushed(factor);
        double[] means = [.. plan.Frames.Where(f => f.Role == Frames.FrameRole.Dark).Select(f => plan.Expose(f).Average(code => code))];

        Assert.Equal(means.Average(), Assert.Single(RehearsalTruth.Of(plan)).BlackLevelDn, 0.02);
    }

    private static RehearsalPlan Pushed(double factor)
    {
        var body = new VirtualBody { WidthPixels = 800, HeightPixels = 480 };
        return RehearsalPlan.Of(new RehearsalOptions { Body = body with { IsoSettings = [body.At(100) with { DigitalFactor = factor }] }, IsoValues = [100] });
    }

    [Fact]
    public void Of_MeterThatReadsInThirds_IsWithinHalfAStepAndIsTheMeanOfItsReadings()
    {
        var body = new VirtualBody { Shooting = new ShootingHabits { MeterReadings = 3 } };
        double[] offEv =
        [
            .. Enumerable.Range(0, 300).Select(seed =>
            {
                IsoTruth truth = RehearsalTruth.Of(RehearsalPlan.Of(new RehearsalOptions { Body = body with { WidthPixels = 2, HeightPixels = 2 }, IsoValues = [100], Seed = (ulong)seed }))[0];
                return Math.Log2(truth.MiddleGreyDn!.Value * 2.6 / 4700);
            }),
        ];
        Assert.All(offEv, off => Assert.InRange(off, -1.0 / 6, 1.0 / 6));

        // The mean of three readings that are even over a third of a stop: 1/3/√12/√3 = 0.0556; 300 draws know it to 4 %.
        double deviation = Math.Sqrt(offEv.Average(off => off * off));
        Assert.InRange(deviation, 0.0556 * 0.8, 0.0556 * 1.2);
    }

    [Fact]
    public void Of_MaskedPixels_SayWhereTheirBlackLies()
    {
        var body = new VirtualBody { MaskedLeftPixels = 16, MaskedBlackShiftDn = -2 };
        IsoTruth TruthOf(VirtualBody shot) => RehearsalTruth.Of(RehearsalPlan.Of(new RehearsalOptions { Body = shot, IsoValues = [100] }))[0];

        Assert.Equal(510.25, TruthOf(body).OpticalBlackLevelDn);
        Assert.Null(TruthOf(body with { MaskedLeftPixels = 0 }).OpticalBlackLevelDn);
    }

    [Fact]
    public void Of_PrnuThatLimitsTheSnr_LeavesOutWhatIsNeverReached()
    {
        var body = new VirtualBody { PrnuPercent = 4 };
        IsoTruth truth = RehearsalTruth.Of(RehearsalPlan.Of(new RehearsalOptions { Body = body, IsoValues = [100] }))[0];
        Assert.DoesNotContain("snr40", truth.BelowEv.Keys);
        Assert.Contains("snr20", truth.BelowEv.Keys);
    }

    [Fact]
    public void FirstClipDn_DrawnFrames_HaveOnePixelInAThousandAtTheLargestCode()
    {
        var body = new VirtualBody { ColourFilterArray = "monochrome", WidthPixels = 1000, HeightPixels = 1000, FullWellElectron = 80_000 };
        VirtualIso setting = body.At(400);
        double first = new SensorLaw(body, setting).FirstClipDn()!.Value;
        var camera = new VirtualCamera(body);
        var codes = new ushort[camera.PixelCount];
        camera.Expose(new Exposure { Setting = setting, LightElectron = first * setting.GainElectronPerDn, ExposureSeconds = 1, Seed = 3, FrameNumber = 1 }, codes);

        // A thousand pixels of a million are expected; shot noise of Poisson skews the tail by a few percent at 10 000 e⁻.
        Assert.InRange(codes.Count(code => code == 16_383), 800, 1250);
    }
}
