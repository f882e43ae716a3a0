using SensorLab.Measurement.Previews;

namespace SensorLab.Measurement.Tests.Previews;

public sealed class CurveEndEstimatorTests
{
    /// <summary>A curve that still falls at its darkest point has its end further down; one that still rises, further up.</summary>
    [Fact]
    public void Ends_OfACurveWithoutPlateaus_AreBoundsByTheOutermostPoints()
    {
        ToneCurve curve = Curve(40, 100, 160, 220);

        CurveEnd dark = CurveEndEstimator.Dark(curve);
        CurveEnd bright = CurveEndEstimator.Bright(curve);

        Assert.Equal(-3, dark.Ev.AtMost);
        Assert.Null(dark.EndCode);
        Assert.Equal(0, bright.Ev.AtLeast);
        Assert.Null(bright.EndCode);
    }

    /// <summary>And one that is at its end everywhere ends before the first point.</summary>
    [Fact]
    public void Ends_OfACurveThatIsAtItsEndEverywhere_AreBoundsByTheInnermostPoints()
    {
        Assert.Equal(-1, CurveEndEstimator.Dark(Curve(0, 0, 0)).Ev.AtLeast);
        Assert.Equal(-3, CurveEndEstimator.Bright(Curve(255, 255, 255)).Ev.AtMost);
    }

    /// <summary>A curve that rises by 50 codes a stop and reaches 255 at its fifth point is there, for rounded codes, half a code before.</summary>
    [Fact]
    public void Bright_OfAStraightCurve_IsWhereCodesRoundToTheEnd()
    {
        CurveEnd bright = CurveEndEstimator.Bright(Curve(55, 105, 155, 205, 255, 255));

        Assert.Equal(255, bright.EndCode);
        Assert.Equal(1 - (0.5 / 50), bright.Ev.Value!.Value, 1e-9);
    }

    private static ToneCurve Curve(params double[] codes) => ToneCurve.Through(codes.Select((code, i) => new ToneNode(i - 3, code)));
}
