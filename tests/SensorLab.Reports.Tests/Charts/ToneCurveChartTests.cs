using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Tests.Samples;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Charts;

public sealed class ToneCurveChartTests
{
    [Fact]
    public void From_TwoLooks_EqualsGolden()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        GoldenModel.Verify("tone-curve", ToneCurveChart.From(profile, profile.IsoProfiles[0]));
    }

    [Fact]
    public void Spans_ClipAndBrightEndKnown_AreTheHiddenHeadroom()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();

        PlotPanel panel = ToneCurveChart.From(profile, profile.IsoProfiles[0]).Panels[0];

        // The sample's looks clip at 2.4 and 1.6 EV, the raw file at 3.2.
        Assert.Equal([(2.4, 3.2, "+0.80 EV hidden"), (1.6, 3.2, "+1.60 EV hidden")], panel.Spans.Select(s => (Math.Round(s.From, 9), s.To, s.Label)));
        Assert.Contains(panel.Rules, r => r is { IsUpright: true, Value: 3.2, Label: "raw file's bright end" });
    }

    [Fact]
    public void Curves_Looks_AreTheProfilesPoints()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        IsoProfile iso = profile.IsoProfiles[0];

        PlotPanel panel = ToneCurveChart.From(profile, iso).Panels[0];

        Assert.Equal(["neutral", "vivid"], panel.Series.Select(s => s.Label));
        Assert.Equal(iso.Previews[1].ToneCurve.Select(p => (p.Ev, p.Code)), panel.Series[1].Points.Select(p => (p.X, p.Y)));
    }

    [Fact]
    public void Sentence_Looks_NamesTheMostTruthful()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();

        Assert.Equal(
            "In the look neutral the preview clips at +2.40 ±0.06 EV: the raw file holds 0.80 EV above that. Of 2 looks it shows the raw file's ends most truthfully.",
            ToneCurveChart.From(profile, profile.IsoProfiles[0]).Heading.Sentence);
    }

    [Fact]
    public void From_NoPreview_IsEmptyAndSaysSo()
    {
        SensorProfile profile = SampleProfiles.Monochrome();
        PlotModel model = ToneCurveChart.From(profile, profile.IsoProfiles[0]);

        Assert.True(model.IsEmpty);
        Assert.Equal("There was no preview to compare.", model.Heading.Sentence);
    }
}
