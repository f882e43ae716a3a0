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

    // By hand: signals 1000, 2000, 4000, 8000 on a line, the last 2 % high: the relative fit of offset and slope
    // then leaves the deviations whose weighted sums vanish.
    [Fact]
    public void Line_RelativeSquares_BalancesRelativeDeviations()
    {
        (double X, double Y)[] points = [(1, 1000), (2, 2000), (4, 4000), (8, 8160)];

        StraightLine line = StraightLine.Of(points)!.Value;

        Assert.Equal(0, points.Sum(p => (p.Y - line.At(p.X)) / (p.Y * p.Y)), 12);
        Assert.Equal(0, points.Sum(p => p.X * (p.Y - line.At(p.X)) / (p.Y * p.Y)), 12);
    }

    [Fact]
    public void Line_OneExposure_IsNone() => Assert.Null(StraightLine.Of([(1, 10), (1, 11), (1, 12)]));

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
