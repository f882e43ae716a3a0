using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Tests.Samples;

namespace SensorLab.Reports.Tests.Charts;

public sealed class ResponseChartTests
{
    // The samples' signals are exact to the last bits of a double.
    private const double Exact = 1e-9;

    [Fact]
    public void From_OneIso_EqualsGolden()
    {
        SensorProfile profile = SampleProfile.Of(new VirtualBody());
        GoldenModel.Verify("response", ResponseChart.From(profile, profile.IsoProfiles[0]));
    }

    [Fact]
    public void Points_StraightResponse_LieOnTheLine()
    {
        IReadOnlyList<ResponsePoint> points = ResponseSeries.Of(SampleProfile.Of(new VirtualBody()).IsoProfiles[0]);

        Assert.All(points.Where(p => p.Counts), p => Assert.InRange(p.DeviationPercent!.Value, -Exact, Exact));
        Assert.Equal(["R", "G1", "G2", "B"], points.Select(p => p.Channel).Distinct());
    }

    // Saturation 15 600: what lies below 780 DN or above 14 820 DN does not count.
    [Fact]
    public void Points_OutsideFiveToNinetyFivePercent_DoNotCount() => Assert.All(
        ResponseSeries.Of(SampleProfile.Of(new VirtualBody()).IsoProfiles[0]),
        p => Assert.Equal(p.SignalDn is >= 780 and <= 14_820, p.Counts));

    // Of a line with offset of least relative squares, Σ(y − l)/y² and Σx(y − l)/y² vanish; l is y over 1 + the deviation.
    [Fact]
    public void Deviations_OfLeastRelativeSquares_Balance() => Assert.All(
        ResponseSeries.Of(SampleProfile.Of(new VirtualBody { CompressionPercent = 8 }).IsoProfiles[0]).Where(p => p.Counts).GroupBy(p => p.Channel),
        series =>
        {
            double Off(ResponsePoint p) => (1 - (1 / (1 + (p.DeviationPercent!.Value / 100)))) / p.SignalDn;
            Assert.True(series.Max(p => Math.Abs(p.DeviationPercent!.Value)) > 0.5);
            Assert.Equal(0, series.Sum(Off), 12);
            Assert.Equal(0, series.Sum(p => p.Level.ExposureSeconds * Off(p)), 12);
        });

    [Fact]
    public void Exposure_OfTheLevels_IsTheirEv() => Assert.All(
        ResponseSeries.Of(SampleProfile.Of(new VirtualBody()).IsoProfiles[0]),
        p => Assert.Equal(p.Level.Ev!.Value, p.ExposureEv, 9));

    [Fact]
    public void Axes_UnitsAndScales_AreNamed()
    {
        SensorProfile profile = SampleProfile.Of(new VirtualBody());

        PlotModel model = ResponseChart.From(profile, profile.IsoProfiles[0]);

        Assert.Equal("EV", model.Horizontal.Unit);
        Assert.Equal(("DN", AxisScale.Logarithmic), (model.Panels[0].Vertical.Unit, model.Panels[0].Vertical.Scale));
        Assert.Equal(("%", AxisScale.Linear), (model.Panels[1].Vertical.Unit, model.Panels[1].Vertical.Scale));
    }

    [Fact]
    public void Sentence_NotJudged_SaysSo()
    {
        SensorProfile profile = SampleProfile.Of(new VirtualBody());

        Assert.Equal("Linearity was not judged: too few levels lie between 5 % and 95 % of saturation.", ResponseChart.From(profile, profile.IsoProfiles[0]).Heading.Sentence);
    }
}
