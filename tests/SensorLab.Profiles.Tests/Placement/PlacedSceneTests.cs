using SensorLab.Profiles.Placement;
using static SensorLab.Profiles.Tests.Placement.RoundProfile;

namespace SensorLab.Profiles.Tests.Placement;

// The round profile: clips at 3.2, bright texture to 3.2 − 2/3 = 2.5333, texture to −4, clean to −2, tone to −6.5.
public sealed class PlacedSceneTests
{
    private const double RoundingTolerance = 1e-9;

    // Bright end at 12 EV: most light at 12 − 2.5333 = 9.4667, the next third with less light is 9.6667.
    [Fact]
    public void Advice_BrightEnd_IsTheMostLightThatItsTextureBearsInThirds()
    {
        PlacedScene placed = PlacedScene.Of(Of(), new SceneReadings { Iso = 400, BrightEv = 12 });

        Assert.Equal(12 - 3.2 + (2.0 / 3), placed.MostLightEv!.Value, RoundingTolerance);
        Assert.Equal(29 / 3.0, placed.AdvisedEv!.Value, RoundingTolerance);
        Assert.Equal(placed.AdvisedEv, placed.ExposureEv);
        Assert.Equal(7 / 3.0, placed.Bright!.PlacedEv, RoundingTolerance);
        FigureAssert.HasNormalInterval(3.2 - (7 / 3.0), TogetherEv, placed.Bright.HeadroomEv);
        Assert.Equal(ToneHold.Clean, placed.Bright.Holds);
        Assert.Null(placed.Fits);
        Assert.Null(placed.Dark);
    }

    [Fact]
    public void Advice_IsoBetweenThirds_IsOneThatCanBeSet()
    {
        const double Origin = -1.485;

        PlacedScene placed = PlacedScene.Of(Of(), new SceneReadings { Iso = 400, BrightEv = 12, ExposureOriginEv = Origin });

        double steps = (placed.AdvisedEv!.Value - Origin) * 3;
        Assert.Equal(Math.Round(steps), steps, RoundingTolerance);
        Assert.InRange(placed.AdvisedEv.Value - placed.MostLightEv!.Value, 0, 1 / 3.0);
    }

    [Fact]
    public void Scene_ThatFits_SaysTheRoomAndTheLeastLight()
    {
        PlacedScene placed = PlacedScene.Of(Of(), new SceneReadings { Iso = 400, BrightEv = 12, DarkEv = 6 });

        Assert.True(placed.Fits);
        Assert.Equal(10, placed.LeastLightEv!.Value, RoundingTolerance);
        Assert.Equal(placed.LeastLightEv.Value - placed.MostLightEv!.Value, placed.RoomEv!.Value!.Value, RoundingTolerance);
        FigureAssert.HasNormalInterval(6 - (29 / 3.0) + 4, TogetherEv, placed.Dark!.ShadowRoomEv);
    }

    [Fact]
    public void Scene_TooLong_HoldsTheBrightEnd()
    {
        PlacedScene placed = PlacedScene.Of(Of(), new SceneReadings { Iso = 400, BrightEv = 12, DarkEv = 4 });

        Assert.False(placed.Fits);
        Assert.Equal(29 / 3.0, placed.AdvisedEv!.Value, RoundingTolerance);
        Assert.Equal(ToneHold.ToneOnly, placed.Dark!.Holds);
    }

    [Theory]
    [InlineData(3.2, ToneHold.Clipped)]
    [InlineData(2.6, ToneHold.InGuard)]
    [InlineData(2.5, ToneHold.Clean)]
    [InlineData(-2, ToneHold.Clean)]
    [InlineData(-2.1, ToneHold.Texture)]
    [InlineData(-4.1, ToneHold.ToneOnly)]
    [InlineData(-6.6, ToneHold.Sunk)]
    public void Tone_AlongTheAxis_HoldsWhatItsPlaceAllows(double placedEv, ToneHold holds) =>
        Assert.Equal(holds, PlacedScene.Of(Of(), new SceneReadings { Iso = 400, BrightEv = 9, ToneEvs = [placedEv], ExposureEv = 0 }).Tones[0].Holds);

    [Fact]
    public void Tone_BeyondABound_IsNotKnown()
    {
        Assert.Equal(ToneHold.Unknown, HoldAt(WithAbove(Figure.LowerBound(2)), 2.5));
        Assert.Equal(ToneHold.Clean, HoldAt(WithAbove(Figure.LowerBound(3)), 2));
        Assert.Equal(ToneHold.Unknown, HoldAt(WithAbove(null), 0));
        Assert.Equal(ToneHold.Texture, HoldAt(WithBelow(Figure.LowerBound(4)), -3.9));
        Assert.Equal(ToneHold.Unknown, HoldAt(WithBelow(Figure.LowerBound(4)), -4.1));
    }

    [Fact]
    public void Advice_WithoutABrightEnd_HoldsTheDarkOneElseIsAbsent()
    {
        IsoProfile unknown = WithAbove(null);

        PlacedScene held = PlacedScene.Of(Of(unknown), new SceneReadings { Iso = 400, BrightEv = 12, DarkEv = 6.5 });
        PlacedScene none = PlacedScene.Of(Of(unknown), new SceneReadings { Iso = 400, BrightEv = 12 });

        Assert.Equal(31 / 3.0, held.AdvisedEv!.Value, RoundingTolerance);
        Assert.Null(none.AdvisedEv);
        Assert.Null(none.Bright);
        Assert.Empty(none.Tones);
    }

    [Fact]
    public void Of_NumbersThatAreOff_Throws()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => PlacedScene.Of(Of(), new SceneReadings { Iso = 400, BrightEv = double.NaN }));
        Assert.Throws<ArgumentOutOfRangeException>(() => PlacedScene.Of(Of(), new SceneReadings { Iso = 400, BrightEv = 1, DarkEv = 2 }));
        Assert.Throws<IsoUnmeasuredException>(() => PlacedScene.Of(Of(), new SceneReadings { Iso = 800, BrightEv = 1 }));
    }

    // The curve rises from 200 to 240 between +1 and +2: 220/255 at +1.5; a code is 0.29/40 EV uncertain.
    [Fact]
    public void WarningFromEv_BetweenPoints_IsStraightAndCarriesTheMeter()
    {
        var look = new PreviewProfile { Look = "neutral", ToneCurve = [new(2, 240), new(1, 200), new(3, 255)] };

        Figure? appears = PlacedLook.WarningFromEv(look, 100 * 220 / 255.0, MeterUncertaintyEv);

        FigureAssert.HasNormalInterval(1.5, Math.Sqrt((MeterUncertaintyEv * MeterUncertaintyEv) + (1 / 12.0 / 1600)), appears);
        Assert.Null(PlacedLook.WarningFromEv(look, 50, null));
        Assert.Throws<ArgumentOutOfRangeException>(() => PlacedLook.WarningFromEv(look, double.NaN, null));
    }

    private static ToneHold HoldAt(IsoProfile iso, double placedEv) =>
        PlacedScene.Of(Of(iso), new SceneReadings { Iso = 400, BrightEv = 9, ToneEvs = [placedEv], ExposureEv = 0 }).Tones[0].Holds;
}
