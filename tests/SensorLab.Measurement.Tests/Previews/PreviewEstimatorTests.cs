using SensorLab.Measurement.Previews;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Previews;

public sealed class PreviewEstimatorTests
{
    /// <summary>The accuracy that is owed: a third of the finest step by which a camera is set.</summary>
    private const double ClipToleranceEv = 0.1;

    /// <summary>Rounding and straight lines between points a third of a stop apart: less than a code each.</summary>
    private const double GreyToleranceCodes = 2;

    /// <summary>One-sided coverage that the model asks of a figure at a limit.</summary>
    private const double LeastCoverage = 0.93;

    private const int Trials = 400;

    /// <summary>Highlights five times as shallow at white as without a shoulder.</summary>
    private const double MostShoulder = 4;

    /// <summary>Rounding to codes, over the shallowest slope of these curves at their dark end, 4 codes a stop, four times.</summary>
    private const double ShadowToleranceEv = 0.5;

    [Theory]
    [InlineData(2.1, -5, 110)]
    [InlineData(2.7, -6.5, 118)]
    [InlineData(3.05, -8, 125)]
    public void Of_KnownCurve_FindsBothEndsGreyAndWhatIsHidden(double clipEv, double shadowEv, double grey)
    {
        PreviewProfile preview = Assert.Single(Of(new MadeUpPreviews { Curve = Power(clipEv, shadowEv, grey) }).Previews);

        Assert.Equal(clipEv, preview.ClipEv!.Value!.Value, ClipToleranceEv);
        Assert.Equal(shadowEv, preview.ShadowEndEv!.Value!.Value, ShadowToleranceEv);
        Assert.Equal(MadeUpPreviews.AboveEv - preview.ClipEv.Value.Value, preview.HiddenHeadroomEv!.Value!.Value, 1e-9);
        Assert.Equal(preview.ShadowEndEv.Value.Value + MadeUpPreviews.BelowEv, preview.HiddenShadowEv!.Value!.Value, 1e-9);
        ToneCurvePoint nearest = preview.ToneCurve.MinBy(p => Math.Abs(p.Ev))!;
        Assert.Equal(Power(clipEv, shadowEv, grey)(nearest.Ev), nearest.Code, GreyToleranceCodes);
    }

    [Theory]
    [InlineData(1.0 / 3, ClipToleranceEv)]
    [InlineData(0.5, ClipToleranceEv)]
    [InlineData(1, 3 * ClipToleranceEv)]
    public void Of_RandomCurvesAndGrids_KeepsTheClipWithinToleranceAndInItsInterval(double stepEv, double toleranceEv)
    {
        var random = new Random(7);
        (int inside, double worst) = (0, 0);
        for (int i = 0; i < Trials; i++)
        {
            double clipEv = 1.8 + (1.3 * random.NextDouble());
            Func<double, double> curve = Power(clipEv, -5 - (3 * random.NextDouble()), 100 + (35 * random.NextDouble()), MostShoulder * random.NextDouble());
            PreviewProfile preview = Assert.Single(Of(new MadeUpPreviews { Curve = curve, FirstEv = -9 - random.NextDouble(), LastEv = 4.3, StepEv = stepEv }).Previews);
            Figure clip = preview.ClipEv!;
            double truth = WhereItRoundsToWhite(curve, clipEv);
            inside += clip.Lower95 <= truth && truth <= clip.Upper95 ? 1 : 0;
            worst = Math.Max(worst, Math.Abs(clip.Value!.Value - truth));
        }

        Assert.InRange(inside, LeastCoverage * Trials, Trials);
        Assert.InRange(worst, 0, toleranceEv);
    }

    [Fact]
    public void Of_RandomCurves_KeepsTheShadowEndInItsInterval()
    {
        var random = new Random(11);
        int inside = 0;
        for (int i = 0; i < Trials; i++)
        {
            double shadowEv = -5 - (3 * random.NextDouble());
            PreviewProfile preview = Assert.Single(Of(new MadeUpPreviews
            {
                Curve = Power(1.8 + (1.3 * random.NextDouble()), shadowEv, 100 + (35 * random.NextDouble())),
                FirstEv = -9 - random.NextDouble(),
            }).Previews);
            inside += preview.ShadowEndEv!.Lower95 <= shadowEv && shadowEv <= preview.ShadowEndEv.Upper95 ? 1 : 0;
        }

        Assert.InRange(inside, LeastCoverage * Trials, Trials);
    }

    [Fact]
    public void Of_BracketThatEndsEarly_GivesBounds()
    {
        PreviewProfile preview = Assert.Single(Of(new MadeUpPreviews { Curve = Power(2.7, -6.5, 118), FirstEv = -4, LastEv = 2 }).Previews);

        Assert.Equal(2, preview.ClipEv!.AtLeast!.Value, 1e-9);
        Assert.Equal(-4, preview.ShadowEndEv!.AtMost!.Value, 1e-9);
        Assert.InRange(preview.HiddenHeadroomEv!.AtMost!.Value, 1.2, 1.21);
        Assert.InRange(preview.HiddenShadowEv!.AtMost!.Value, 1.5, 1.53);
    }

    [Fact]
    public void Of_ThreeContrasts_ComeInTheOrderOfWhatTheyHide()
    {
        IReadOnlyList<LevelRecord> soft = new MadeUpPreviews { Curve = Power(3.05, -8, 125), Look = "soft" }.Levels();
        IReadOnlyList<LevelRecord> hard = new MadeUpPreviews { Curve = Power(2.1, -5, 110), Look = "hard" }.Levels();
        IReadOnlyList<LevelRecord> neutral = new MadeUpPreviews { Curve = Power(2.7, -6.5, 118), Look = "neutral" }.Levels();
        LevelRecord[] levels = [.. hard.Concat(neutral).Concat(soft)];

        IReadOnlyList<PreviewProfile> previews = PreviewEstimator.Of(100, levels, MadeUpPreviews.Channels, MadeUpPreviews.Latitude).Previews;

        Assert.Equal(["soft", "neutral", "hard"], previews.Select(p => p.Look));
    }

    [Fact]
    public void Of_RedAhead_ClipsWhereRedDoesAndNamesIt()
    {
        PreviewProfile preview = Assert.Single(Of(new MadeUpPreviews { Curve = Power(2.7, -6.5, 118), Cast = (0.5, -0.2) }).Previews);

        Assert.Equal("R", preview.ClippingChannel);
        Assert.Equal(2.2, preview.ClipEv!.Value!.Value, ClipToleranceEv);
    }

    [Fact]
    public void Of_PreviewThatShowsAllOfTheRawFile_ClipsBeyondItsSaturationByExposureTime()
    {
        PreviewProfile preview = Assert.Single(Of(new MadeUpPreviews { Curve = Power(3.5, -8, 118) }).Previews);

        Assert.Equal(3.5, preview.ClipEv!.Value!.Value, ClipToleranceEv);
        Assert.InRange(preview.HiddenHeadroomEv!.Value!.Value, -0.4, -0.2);
    }

    [Fact]
    public void Of_VideoRange_EndsAtItsOwnCodes()
    {
        PreviewProfile preview = Assert.Single(Of(new MadeUpPreviews { Curve = ev => 16 + (219 * Power(2.7, -6.5, 118)(ev) / 255) }).Previews);

        Assert.Equal(2.7, preview.ClipEv!.Value!.Value, ClipToleranceEv);
        Assert.Equal(-6.5, preview.ShadowEndEv!.Value!.Value, ShadowToleranceEv);
    }

    [Fact]
    public void HighlightWarning_PlacementBelowTheClip_IsTheCurvesCodeThereInPercent()
    {
        Func<double, double> curve = Power(2.9, -8, 118);
        PreviewProfile preview = Assert.Single(Of(new MadeUpPreviews { Curve = curve }).Previews);
        double percent = curve(MadeUpPreviews.AboveEv - (2.0 / 3)) / 2.55;

        Assert.InRange(percent, preview.HighlightWarningPercent!.Lower95!.Value, preview.HighlightWarningPercent.Upper95!.Value);
    }

    [Fact]
    public void HighlightWarning_PlacementAboveTheClip_IsABound() =>
        Assert.Equal(100, Assert.Single(Of(new MadeUpPreviews { Curve = Power(2.1, -6.5, 118) }).Previews).HighlightWarningPercent!.AtLeast!.Value, 1e-9);

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Of_CurveThatChangesFromFrameToFrame_IsAFindingAndNoCurve(int frames)
    {
        var random = new Random(3);
        double[] moved = [.. Enumerable.Range(0, 200).Select(_ => 0.3 * ((2 * random.NextDouble()) - 1) * Math.Sqrt(3))];

        (IReadOnlyList<PreviewProfile> previews, IReadOnlyList<Finding> findings) =
            Of(new MadeUpPreviews { Curve = Power(2.7, -6.5, 118), FramesPerLevel = frames, Adapts = i => moved[i] });

        Assert.Empty(previews);
        Finding finding = Assert.Single(findings);
        Assert.Equal(FindingCode.PreviewAdaptive, finding.Code);
        // Half to twice: neighbours share what they are compared with.
        Assert.InRange(finding.Size!.Value, 0.15, 0.6);
    }

    [Fact]
    public void Of_SteadyCurves_AreNeverCalledAdaptive()
    {
        var random = new Random(5);
        for (int i = 0; i < Trials; i++)
        {
            double clipEv = 1.5 + (1.8 * random.NextDouble());
            Func<double, double> curve = Power(clipEv, -4 - (4 * random.NextDouble()), 80 + (60 * random.NextDouble()), MostShoulder * random.NextDouble());

            Assert.Empty(Of(new MadeUpPreviews { Curve = curve, FramesPerLevel = 2, StepEv = i % 2 == 0 ? 1.0 / 3 : 1 }).Findings);
        }
    }

    private static (IReadOnlyList<PreviewProfile> Previews, IReadOnlyList<Finding> Findings) Of(MadeUpPreviews set) =>
        PreviewEstimator.Of(100, set.Levels(), MadeUpPreviews.Channels, MadeUpPreviews.Latitude);

    // An 8-bit picture cannot show more of a shoulder that is flat at its top.
    private static double WhereItRoundsToWhite(Func<double, double> curve, double clipEv)
    {
        double ev = clipEv;
        while (curve(ev - 0.001) >= 254.5)
        {
            ev -= 0.001;
        }

        return ev;
    }

    /// <summary>
    /// A power of the light with an offset, through a grey code, black and white where they are wanted; with a shoulder the
    /// light is compressed first, l·(1 + s)/(1 + s·l), whose slope at white is 1 + s times smaller.
    /// </summary>
    private static Func<double, double> Power(double clipEv, double shadowEv, double grey, double shoulder = 0)
    {
        (double low, double high) = (1e-3, 6.0);
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = At(0, middle) > grey ? (middle, high) : (low, middle);
        }

        return ev => At(ev, low);

        double At(double ev, double exponent)
        {
            double toe = Math.Pow(Compressed(shadowEv), exponent);
            return 255 * Math.Clamp((Math.Pow(Compressed(ev), exponent) - toe) / (1 - toe), 0, 1);
        }

        double Compressed(double ev)
        {
            double light = Math.Min(1, Math.Pow(2, ev - clipEv));
            return light * (1 + shoulder) / (1 + (shoulder * light));
        }
    }
}
