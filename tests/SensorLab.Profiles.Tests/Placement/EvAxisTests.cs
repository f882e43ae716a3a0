using SensorLab.Profiles.Placement;
using SensorLab.TestData;
using static SensorLab.Profiles.Tests.Placement.RoundProfile;

namespace SensorLab.Profiles.Tests.Placement;

public sealed class EvAxisTests
{
    private const double RoundingTolerance = 1e-9;

    [Fact]
    public void HeadroomEv_Tone_IsAboveLessToneWithSensorAndMeterInQuadrature() =>
        FigureAssert.HasNormalInterval(3.2 - 2.7, TogetherEv, Axis(Iso()).HeadroomEv(2.7));

    [Fact]
    public void HeadroomEv_FewDegreesOfFreedom_FollowWelchAndSatterthwaite()
    {
        // ν = u⁴/(u_s⁴/ν_s) = 10·(0.05/0.03)⁴
        Figure headroom = Axis(WithAbove(Ev(3.2, degreesOfFreedom: 10))).HeadroomEv(0)!;

        Assert.Equal(10 * Math.Pow(5.0 / 3, 4), headroom.DegreesOfFreedom!.Value, RoundingTolerance);
    }

    [Fact]
    public void HeadroomEv_LopsidedInterval_StaysLopsided()
    {
        Figure above = Figure.Estimate(3.2, 0.03, 3.2 - 0.03, 3.2 + 0.12);

        Figure headroom = Axis(WithAbove(above)).HeadroomEv(0)!;

        double meterHalf = 1.959964 * MeterUncertaintyEv;
        Assert.Equal(3.2 - Math.Sqrt((0.03 * 0.03) + (meterHalf * meterHalf)), headroom.Lower95!.Value, RoundingTolerance);
        Assert.Equal(3.2 + Math.Sqrt((0.12 * 0.12) + (meterHalf * meterHalf)), headroom.Upper95!.Value, RoundingTolerance);
    }

    [Fact]
    public void HeadroomEv_IsoWithoutItsOwnMeterFigure_TakesTheSetsWorst() =>
        FigureAssert.Is(3.2, Math.Sqrt((0.03 * 0.03) + (0.2 * 0.2)), Axis(Iso() with { MeterStandardUncertaintyEv = null }).HeadroomEv(0));

    [Fact]
    public void HeadroomEv_MiddleGreyFromSaturation_HasTheSensorsUncertaintyAlone()
    {
        SensorProfile profile = Of(Iso() with { MeterStandardUncertaintyEv = null }) with { MiddleGrey = new MiddleGrey { Method = "saturation" } };

        FigureAssert.HasNormalInterval(3.2, SensorUncertaintyEv, EvAxis.Of(profile, 400).HeadroomEv(0));
    }

    /// <summary>Meter 0.04, shutter 0.03 and lamp 0.12 make 0.13 of middle grey; sampling and temperature are the figure's own.</summary>
    [Fact]
    public void Of_Budgets_CarryAllOfMiddleGreyToWhatHasNoneOfItsOwn()
    {
        BudgetPart[] parts = [new("sampling", 0.5, "set"), new("meter", 0.04, "protocol"), new("shutter", 0.03, "set"), new("light", 0.12, "protocol"), new("temperature", 0.7, "protocol")];
        Figure above = Ev(3.2) with { Budget = new FigureBudget { StandardUncertainty = 0.9, Lower95 = 1.5, Upper95 = 5, Parts = parts } };

        EvAxis axis = Axis(WithAbove(above));

        Assert.Equal(0.13, axis.GreyStandardUncertaintyEv!.Value, RoundingTolerance);
        Assert.Equal(Math.Sqrt((0.03 * 0.03) + (0.13 * 0.13)), axis.DarkestEv(EvAxis.TextureSnr)!.StandardUncertainty!.Value, RoundingTolerance);
        Assert.Equal(0.9, axis.AboveEv!.StandardUncertainty!.Value, RoundingTolerance);
    }

    [Theory]
    [InlineData(3.1, false)]
    [InlineData(3.2, true)]
    [InlineData(3.3, true)]
    public void Clips_Estimate_IsNoHeadroomLeft(double toneEv, bool clips) => Assert.Equal(clips, Axis(Iso()).Clips(toneEv));

    [Fact]
    public void Headroom_LowerBound_IsAtLeastAndOpenBeyond()
    {
        EvAxis axis = Axis(WithAbove(Figure.LowerBound(2.4)));

        FigureAssert.IsAtLeast(1.4, axis.HeadroomEv(1));
        FigureAssert.IsAtLeast(-0.6, axis.HeadroomEv(3));
        Assert.False(axis.Clips(1));
        Assert.Null(axis.Clips(3));
        FigureAssert.IsAtLeast(2.4 - (2.0 / 3), axis.BrightestTexturedEv());
    }

    [Fact]
    public void Headroom_UpperBound_IsAtMostAndClipsBeyond()
    {
        EvAxis axis = Axis(WithAbove(Figure.UpperBound(2.4)));

        FigureAssert.IsAtMost(1.4, axis.HeadroomEv(1));
        Assert.Null(axis.Clips(1));
        Assert.True(axis.Clips(3));
    }

    [Fact]
    public void Headroom_AboveAbsent_IsAbsent()
    {
        EvAxis axis = Axis(WithAbove(null));

        Assert.Null(axis.HeadroomEv(0));
        Assert.Null(axis.Clips(0));
        Assert.Null(axis.BrightestTexturedEv());
        Assert.NotNull(axis.SnrAt(0));
    }

    [Theory]
    [InlineData(-4)]
    [InlineData(0)]
    [InlineData(1.3)]
    [InlineData(2.99)]
    public void SnrAt_CurveStraightInLog2_IsExactAndCarriesTheMeterByItsSlope(double toneEv)
    {
        // log2 SNR = 5 + EV/2: a meter error of 0.04 EV is 0.02 in log2, 0.02·ln 2 of the value.
        double snr = Math.Pow(2, 5 + (toneEv / 2));
        double relative = Math.Sqrt(Math.Pow(SnrRelativeUncertainty, 2) + Math.Pow(0.5 * MeterUncertaintyEv * Math.Log(2), 2));

        Figure actual = Axis(Iso()).SnrAt(toneEv)!;

        FigureAssert.Is(snr, snr * relative, actual);
        // On the log axis ends of the published intervals are a hair lopsided: log2(1 ± 1.96·0.004) differ by 0.8 %.
        double half = 1.959964 * relative;
        Assert.Equal(-half, Math.Log(actual.Lower95!.Value / snr), 0.01 * half);
        Assert.Equal(half, Math.Log(actual.Upper95!.Value / snr), 0.01 * half);
    }

    [Fact]
    public void SnrAt_BetweenTwoPoints_IsTheirGeometricMeanHalfWay()
    {
        IsoProfile iso = Iso() with { SnrCurve = [Point(1, 64), Point(0, 16)] };

        Assert.Equal(32, Axis(iso).SnrAt(0.5)!.Value!.Value, RoundingTolerance);
        Assert.Equal(16, Axis(iso).SnrAt(0)!.Value!.Value, RoundingTolerance);
        Assert.Equal(64, Axis(iso).SnrAt(1)!.Value!.Value, RoundingTolerance);
    }

    [Fact]
    public void SnrAt_ShotAndReadNoise_IsWithinAFifthOfAPercentOfTheModel()
    {
        // The bend of log2 SNR between points half an EV apart: at most 0.0027 in log2, 0.19 %.
        const double InterpolationTolerance = 0.0019;
        SampleSensor sensor = new(0.8);
        EvAxis axis = EvAxis.Of(SampleProfiles.ThreeIsos(), 400);
        for (double ev = -7.9; ev < 3; ev += 0.1)
        {
            double expected = sensor.SnrPoint(ev).SnrTotal!.Value!.Value;

            Assert.Equal(expected, axis.SnrAt(ev)!.Value!.Value, InterpolationTolerance * expected);
        }
    }

    [Fact]
    public void SnrAt_RisingCurve_RisesToo()
    {
        EvAxis axis = EvAxis.Of(SampleProfiles.ThreeIsos(), 1600);
        double before = 0;
        for (double ev = -8; ev <= 3; ev += 0.01)
        {
            double snr = axis.SnrAt(ev)!.Value!.Value;
            Assert.True(snr > before);
            before = snr;
        }
    }

    [Fact]
    public void SnrAt_ClippedToneOrOffTheCurve_IsAbsent()
    {
        Assert.Null(Axis(WithAbove(Ev(2.5))).SnrAt(2.6));
        Assert.Null(Axis(Iso()).SnrAt(-8.1));
        Assert.Null(Axis(Iso()).SnrAt(3.1));
        Assert.Null(Axis(Iso() with { SnrCurve = [] }).SnrAt(0));
        Assert.Null(Axis(Iso() with { SnrCurve = [Point(0, 32)] }).SnrAt(0));
    }

    [Fact]
    public void SnrAt_GapOrBoundBesideTheTone_IsAbsentThereAlone()
    {
        IsoProfile iso = Iso() with { SnrCurve = [Point(0, 10), new SnrPoint { Ev = 1 }, Point(2, 20), Point(3, 40), new SnrPoint { Ev = 4, SnrTotal = Figure.LowerBound(50) }] };

        Assert.Null(Axis(iso).SnrAt(0.5));
        Assert.Null(Axis(iso).SnrAt(1.5));
        Assert.NotNull(Axis(iso).SnrAt(2.5));
        Assert.Null(Axis(iso).SnrAt(3.1));
    }

    [Fact]
    public void SnrAt_FallingCurveAndIntervalDownToZero_StillHoldsItsValue()
    {
        SnrPoint faint = new() { Ev = 1, SnrTotal = Figure.Estimate(0.5, 0.4, -0.3, 1.3) };

        Figure snr = Axis(Iso() with { SnrCurve = [Point(0, 10), faint] }).SnrAt(0.9)!;

        Assert.InRange(snr.Value!.Value, snr.Lower95!.Value, snr.Upper95!.Value);
        Assert.True(snr.Lower95 > 0);
    }

    [Fact]
    public void BrightestTexturedEv_Guard_IsTakenOff()
    {
        FigureAssert.HasNormalInterval(3.2 - (2.0 / 3), TogetherEv, Axis(Iso()).BrightestTexturedEv());
        FigureAssert.HasNormalInterval(2.2, TogetherEv, Axis(Iso()).BrightestTexturedEv(1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Axis(Iso()).BrightestTexturedEv(-0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Axis(Iso()).BrightestTexturedEv(double.NaN));
    }

    [Theory]
    [InlineData(EvAxis.CleanSnr, -2)]
    [InlineData(EvAxis.TextureSnr, -4)]
    [InlineData(EvAxis.ToneSnr, -6.5)]
    public void DarkestEv_Criterion_IsBelowWithItsSignTurned(double snr, double ev) =>
        FigureAssert.HasNormalInterval(ev, TogetherEv, Axis(Iso()).DarkestEv(snr));

    [Fact]
    public void DarkestEv_BoundsAndAbsence_TurnWithTheSign()
    {
        FigureAssert.IsAtMost(-4.2, Axis(WithBelow(Figure.LowerBound(4.2))).DarkestEv(10));
        FigureAssert.IsAtLeast(-4.2, Axis(WithBelow(Figure.UpperBound(4.2))).DarkestEv(10));
        FigureAssert.Is(0.5, TogetherEv, Axis(WithBelow(Ev(-0.5))).DarkestEv(10));
        Assert.Null(Axis(WithBelow(null)).DarkestEv(10));
        Assert.Null(Axis(Iso()).DarkestEv(7));
    }

    [Fact]
    public void Of_UnmeasuredIso_IsRefusedWithItsNeighboursNamed()
    {
        IsoUnmeasuredException thrown = Assert.Throws<IsoUnmeasuredException>(() => EvAxis.Of(SampleProfiles.ThreeIsos(), 640));

        Finding finding = Assert.Single(thrown.Findings);
        Assert.Equal(IsoUnmeasuredException.Code, finding.Code);
        Assert.Equal(640, finding.Iso);
        Assert.Contains("ISO 400 and ISO 1600.", finding.Message, StringComparison.Ordinal);
        Assert.Contains("ISO 400 or ISO 1600", finding.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_IsoThatTheSetWasRefusedAt_GivesThatReasonFirst()
    {
        IsoUnmeasuredException thrown = Assert.Throws<IsoUnmeasuredException>(() => EvAxis.Of(SampleProfiles.ThreeIsos(), 3200));

        Assert.Equal([FindingCode.MeteredMissing, IsoUnmeasuredException.Code], thrown.Findings.Select(f => f.Code));
        Assert.Contains("Measured beside it: ISO 1600.", thrown.Findings[1].Message, StringComparison.Ordinal);
    }

    private static EvAxis Axis(IsoProfile iso) => EvAxis.Of(Of(iso), iso.Iso);
}
