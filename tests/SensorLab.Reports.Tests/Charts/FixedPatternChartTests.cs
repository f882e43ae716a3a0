using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Tests.Samples;

namespace SensorLab.Reports.Tests.Charts;

public sealed class FixedPatternChartTests
{
    // Variances are drawn with 0.47 % of noise: half of that in the standard deviation, five of these.
    private const double Tolerance = 5 * 0.5 * 0.0047;

    [Fact]
    public void From_OneIso_EqualsGolden()
    {
        SensorProfile profile = SampleProfile.Of(new VirtualBody());
        GoldenModel.Verify("fixed-pattern", FixedPatternChart.From(profile, profile.IsoProfiles[0]));
    }

    [Fact]
    public void Points_PixelPart_IsTheBodysPattern()
    {
        var body = new VirtualBody();

        FixedPatternPoint[] points = [.. FixedPatternChart.Points(SampleProfile.Of(body).IsoProfiles[0]).Where(p => p.Channel == "G1")];

        Assert.NotEmpty(points);
        Assert.All(points, p =>
        {
            double expected = Math.Sqrt(body.FixedVarianceDn2(p.SignalDn));
            Assert.InRange(p.Pixel.SizeDn, expected * (1 - Tolerance), expected * (1 + Tolerance));
        });
    }

    [Fact]
    public void Points_ClippedLevels_AreLeftOut() =>
        Assert.All(FixedPatternChart.Points(SampleProfile.Of(new VirtualBody()).IsoProfiles[0]), p => Assert.True(p.SignalDn < 15_600 * 0.94));

    // 4 ± 1 DN² stands out of 1.96; 1 ± 1 does not, and is at most √(1 + 1.96).
    [Theory]
    [InlineData(4, 1, true, 2)]
    [InlineData(1, 1, false, 1.7204546)]
    [InlineData(-1, 1, false, 1.3999871)]
    public void Part_BesideItsUncertainty_IsFoundOrAnUpperBound(double variance, double uncertainty, bool isFound, double size)
    {
        var part = new PatternPart(variance, uncertainty);

        Assert.Equal(isFound, part.IsFound);
        Assert.Equal(size, part.SizeDn, 6);
    }

    [Fact]
    public void Series_PixelRowColumnAndTemporal_AreNamed()
    {
        SensorProfile profile = SampleProfile.Of(new VirtualBody());

        PlotModel model = FixedPatternChart.From(profile, profile.IsoProfiles[0]);

        Assert.Equal(["fixed, pixel by pixel", "fixed, by row", "fixed, by column", "temporal noise, for comparison"], model.Panels[0].Series.Select(s => s.Label));
        Assert.Equal(("DN", AxisScale.Logarithmic), (model.Panels[0].Vertical.Unit, model.Panels[0].Vertical.Scale));
    }
}
