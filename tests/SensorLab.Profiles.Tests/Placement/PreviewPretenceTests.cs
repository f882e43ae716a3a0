using SensorLab.Profiles.Placement;
using SensorLab.TestData;
using static SensorLab.Profiles.Tests.Placement.RoundProfile;

namespace SensorLab.Profiles.Tests.Placement;

public sealed class PreviewPretenceTests
{
    private static readonly PreviewProfile Neutral = new()
    {
        Look = "neutral",
        ClipEv = Ev(2.6),
        ShadowEndEv = Ev(-6),
        HiddenHeadroomEv = Ev(0.6),
        HighlightWarningPercent = SampleProfiles.Measured(97, 0.5),
        ToneCurve = [new(-2, 60), new(0, 118), new(2, 218)],
    };

    [Theory]
    [InlineData(1, 168.0)]
    [InlineData(-2, 60.0)]
    [InlineData(2, 218.0)]
    [InlineData(2.1, null)]
    [InlineData(-2.1, null)]
    public void ToneCode_LiesStraightBetweenMeasuredPointsAndNowhereElse(double toneEv, double? code) => Assert.Equal(code, Of(Neutral, toneEv).ToneCode);

    [Theory]
    [InlineData(2.5, false, false)]
    [InlineData(2.6, true, false)]
    [InlineData(-5.9, false, false)]
    [InlineData(-6, false, true)]
    public void Shows_BeyondTheCurvesEnds_IsBlownOrBlack(double toneEv, bool isClipped, bool isBlack)
    {
        PreviewPretence pretence = Of(Neutral, toneEv);

        Assert.Equal((isClipped, isBlack), (pretence.ShowsClipped, pretence.ShowsBlack));
    }

    [Fact]
    public void Shows_BeyondABound_IsNotKnown()
    {
        PreviewProfile bounds = Neutral with { ClipEv = Figure.LowerBound(2), ShadowEndEv = Figure.UpperBound(-3) };

        Assert.False(Of(bounds, 1.9).ShowsClipped);
        Assert.Null(Of(bounds, 2.1).ShowsClipped);
        Assert.False(Of(bounds, -2.9).ShowsBlack);
        Assert.Null(Of(bounds, -3.1).ShowsBlack);
    }

    [Fact]
    public void ClipEv_CarriesTheMeter() => FigureAssert.Is(2.6, TogetherEv, Of(Neutral, 0).ClipEv);

    [Fact]
    public void Of_NoPreview_IsEmpty() => Assert.Empty(PlacementAnswer.Of(RoundProfile.Of(), new PlacementQuestion { Iso = 400, ToneEv = 0 }).Previews);

    private static PreviewPretence Of(PreviewProfile preview, double toneEv) =>
        Assert.Single(PlacementAnswer.Of(RoundProfile.Of(Iso() with { Previews = [preview] }), new PlacementQuestion { Iso = 400, ToneEv = toneEv }).Previews);
}
