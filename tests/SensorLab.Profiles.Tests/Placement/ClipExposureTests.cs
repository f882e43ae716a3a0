using SensorLab.Profiles.Placement;
using static SensorLab.Profiles.Tests.Placement.RoundProfile;

namespace SensorLab.Profiles.Tests.Placement;

public sealed class ClipExposureTests
{
    // log2 SNR rises by half an EV an EV.
    private const double Slope = 0.5;

    [Fact]
    public void ExposeToClip_OneEvOfHeadroom_GainsByTheCurvesSlopeAndCostsOneEv()
    {
        ClipExposure exposure = EvAxis.Of(Of(), 400).ExposeToClip(2.2, -3);

        double curve = SnrRelativeUncertainty / Math.Log(2);
        FigureAssert.Is(Slope * 1, Math.Sqrt((2 * curve * curve) + Math.Pow(Slope * TogetherEv, 2)), exposure.GainEv);
        FigureAssert.HasNormalInterval(-1, TogetherEv, exposure.CorrectionEv);
    }

    [Fact]
    public void ExposeToClip_ToneAboveSaturation_LosesAndBrightens()
    {
        ClipExposure exposure = EvAxis.Of(Of(), 400).ExposeToClip(4.2, 0);

        Assert.Equal(-0.5, exposure.GainEv!.Value!.Value, 1e-9);
        Assert.Equal(1, exposure.CorrectionEv!.Value!.Value, 1e-9);
    }

    [Fact]
    public void ExposeToClip_Bounds_BoundGainAndCorrection()
    {
        ClipExposure atLeast = EvAxis.Of(Of(WithAbove(Figure.LowerBound(2.4))), 400).ExposeToClip(1.4, -3);
        ClipExposure atMost = EvAxis.Of(Of(WithAbove(Figure.UpperBound(2.4))), 400).ExposeToClip(1.4, -3);

        FigureAssert.IsAtLeast(0.5, atLeast.GainEv);
        FigureAssert.IsAtMost(-1, atLeast.CorrectionEv);
        FigureAssert.IsAtMost(0.5, atMost.GainEv);
        FigureAssert.IsAtLeast(-1, atMost.CorrectionEv);
    }

    [Fact]
    public void ExposeToClip_PartsMissing_GivesWhatIsLeft()
    {
        ClipExposure withoutShadow = EvAxis.Of(Of(), 400).ExposeToClip(2.2, null);
        ClipExposure offTheCurve = EvAxis.Of(Of(), 400).ExposeToClip(2.2, -9);
        ClipExposure withoutAbove = EvAxis.Of(Of(WithAbove(null)), 400).ExposeToClip(2.2, -3);

        Assert.Null(withoutShadow.GainEv);
        Assert.NotNull(withoutShadow.CorrectionEv);
        Assert.Null(offTheCurve.GainEv);
        Assert.Equal(new ClipExposure(), withoutAbove);
    }
}
