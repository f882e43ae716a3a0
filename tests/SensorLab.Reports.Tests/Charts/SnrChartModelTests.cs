using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Tests.Samples;

namespace SensorLab.Reports.Tests.Charts;

public sealed class SnrChartModelTests
{
    // Two frames of two greens of 90 000 pixels: the variance is known to 0.33 %, SNR to half of that; five of these.
    private const double SnrTolerance = 5 * 0.5 * 0.0034;

    [Fact]
    public void From_OneIso_EqualsGolden() => GoldenModel.Verify("snr", Model(SampleProfile.Of(new VirtualBody())));

    [Fact]
    public void MeasuredPoints_LevelsOfKnownPhysics_LieOnTheTrueCurve()
    {
        var body = new VirtualBody();

        SnrChartModel model = Model(SampleProfile.Of(body));

        Assert.All(model.MeasuredTotal.Points, point => Near(body.Snr(body.MiddleGreyDn * Math.Pow(2, point.X), total: true), point.Y));
        Assert.All(model.MeasuredTemporal.Points, point => Near(body.Snr(body.MiddleGreyDn * Math.Pow(2, point.X), total: false), point.Y));
        Assert.True(model.MeasuredTotal.HasBand);
    }

    [Fact]
    public void MeasuredPoints_ClippedLevels_AreCountedAndNotDrawn()
    {
        SnrChartModel model = Model(SampleProfile.Of(new VirtualBody()));

        Assert.Equal(2, model.ClippedLevels);
        Assert.Equal(3.0, model.MeasuredTotal.Points[^1].X);
    }

    [Fact]
    public void Criteria_Ten_IsTheEmphasisedOne()
    {
        SnrChartModel model = Model(SampleProfile.Of(new VirtualBody()));

        Assert.Equal(["SNR 40", "SNR 20", "SNR 10", "SNR 4", "SNR 1"], model.Criteria.Select(c => c.Label));
        Assert.Equal(["SNR 10"], model.Criteria.Where(c => c.Emphasised).Select(c => c.Label));
    }

    [Fact]
    public void Axes_Profile_HoldCurvesAndNameUnits()
    {
        SnrChartModel model = Model(SampleProfile.Of(new VirtualBody()));

        Assert.Equal(("EV", AxisScale.Linear), (model.Horizontal.Unit, model.Horizontal.Scale));
        Assert.Equal((string.Empty, AxisScale.Logarithmic), (model.Vertical.Unit, model.Vertical.Scale));
        Assert.All(model.Total.Points, point => Assert.InRange(point.X, model.Horizontal.Minimum, model.Horizontal.Maximum));
        Assert.All(model.Total.Points, point => Assert.True(point.Y <= model.Vertical.Maximum));
        Assert.All(model.Criteria, criterion => Assert.InRange(criterion.Snr, model.Vertical.Minimum, model.Vertical.Maximum));
    }

    // SNR 10 by hand: S² = 100·(2.6² + 0.7² + 1.25²/12 + S + (0.006·S)²) gives S = 107.4 e⁻; middle grey has 1560·1.25 = 1950 e⁻,
    // and log2(107.4/1950) = −4.18.
    [Fact]
    public void Sentence_OneIso_IsComputed() => Assert.Equal(
        "Total SNR falls to 10 at −4.18 ±0.02 EV. At middle grey it is 43. At +3.3 EV fixed pattern brings it from 140 down to 107.",
        Model(SampleProfile.Of(new VirtualBody())).Heading.Sentence);

    [Fact]
    public void Sentence_NoFixedPattern_SaysSo()
    {
        var body = new VirtualBody { PrnuShare = 0, DsnuElectron = 0 };

        Assert.EndsWith("Fixed pattern costs next to nothing, even in the highlights.", Model(SampleProfile.Of(body)).Heading.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Criteria_AboveTheWholeCurve_AreNotReached()
    {
        SnrChartModel model = Model(SampleProfile.Of(VirtualBody.AtIso(51_200)));

        Assert.Equal(["SNR 40: not reached", "SNR 20: not reached"], model.Criteria.Take(2).Select(c => c.Words));
        Assert.Equal("SNR 10 at +2.76 ±0.02 EV", model.Criteria[2].Words);
    }

    [Fact]
    public void Criteria_AbsentBelowTheCurve_AreNotMeasured()
    {
        SensorProfile profile = SampleProfile.Of(new VirtualBody());
        IsoProfile iso = profile.IsoProfiles[0];
        IsoLatitude latitude = iso.Latitude with { BelowEv = [new ShadowEnd { Snr = 10 }] };

        SnrChartModel model = SnrChartModel.From(profile, iso with { Latitude = latitude });

        Assert.Equal("SNR 10: not measured", Assert.Single(model.Criteria).Words);
        Assert.StartsWith("No shadow end at SNR 10 was measured.", model.Heading.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void From_Monochrome_UsesTheOneChannel()
    {
        SnrChartModel model = Model(SampleStates.Of("monochrome"));

        Assert.Equal("total, of one pixel", model.Total.Label);
        Assert.NotEmpty(model.MeasuredTotal.Points);
    }

    [Fact]
    public void From_AbsentFigures_IsEmpty() => Assert.True(Model(SampleStates.Of("absent")).IsEmpty);

    private static SnrChartModel Model(SensorProfile profile) => SnrChartModel.From(profile, profile.IsoProfiles[0]);

    private static void Near(double expected, double actual) =>
        Assert.InRange(actual, expected * (1 - SnrTolerance), expected * (1 + SnrTolerance));
}
