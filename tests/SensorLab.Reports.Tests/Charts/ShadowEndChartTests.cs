using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Tests.Samples;

namespace SensorLab.Reports.Tests.Charts;

public sealed class ShadowEndChartTests
{
    [Fact]
    public void From_ThreeIsos_EqualsGolden() => GoldenModel.Verify("shadow-end", ShadowEndChart.From(SampleProfile.ThreeIsos()));

    [Fact]
    public void Points_EveryCriterion_StandAtTheProfilesEvWithTheirIntervals()
    {
        SensorProfile profile = SampleProfile.ThreeIsos();

        PlotPanel panel = ShadowEndChart.From(profile).Panels[0];

        Assert.Equal(["SNR 40", "SNR 20", "SNR 10", "SNR 4", "SNR 1"], panel.Series.Select(s => s.Label));
        foreach ((PlotSeries series, double snr) in panel.Series.Zip([40.0, 20, 10, 4, 1]))
        {
            Figure[] ends = [.. profile.IsoProfiles.Select(i => i.Latitude.BelowEv.Single(e => e.Snr == snr).PerPixel!)];
            Assert.Equal(ends.Select(e => -e.Value!.Value), series.Points.Select(p => p.X));
            Assert.Equal(ends.Select(e => (double?)-e.Upper95!.Value), series.Points.Select(p => p.LowerX95));
            Assert.Equal(ends.Select(e => (double?)-e.Lower95!.Value), series.Points.Select(p => p.UpperX95));
        }
    }

    [Fact]
    public void Axes_EvToTheRight_IsoDownwards()
    {
        PlotModel model = ShadowEndChart.From(SampleProfile.ThreeIsos());

        Assert.Equal("EV", model.Horizontal.Unit);
        Assert.Contains(model.Horizontal.Ticks, t => t is { Value: 0, Label: "0" });
        AxisTick[] isos = [.. model.Panels[0].Vertical.Ticks];
        Assert.Equal(["100", "400", "1600"], isos.Select(t => t.Label));
        Assert.True(isos[0].Value > isos[1].Value && isos[1].Value > isos[2].Value);
        Assert.Equal(2, isos[0].Value - isos[1].Value, 12);
    }

    [Fact]
    public void Notes_SwitchPushAndSharedGain_AreMarkedAtTheirIso()
    {
        SensorProfile profile = SampleProfile.ThreeIsos() with
        {
            Findings = [Note(FindingCode.GainSwitch, 400), Note(FindingCode.GainDigital, 1600), Note(FindingCode.TargetUneven, 100)],
        };

        PlotPanel panel = ShadowEndChart.From(profile).Panels[0];

        Assert.Equal(["second gain", "digital push"], panel.Notes.Select(n => n.Label));
        Assert.Equal([-Math.Log2(400), -Math.Log2(1600)], panel.Notes.Select(n => n.Value));
        Assert.Equal([false, true, true], panel.Series[2].Points.Select(p => p.IsHollow));
    }

    // VirtualBody: ISO 100 reaches −5.89, ISO 1600 −2.43 EV; see the golden file for the digits.
    [Fact]
    public void Sentence_SeveralIsos_TellsTheLossAStop()
    {
        SensorProfile profile = SampleProfile.ThreeIsos();
        double[] ends = [.. profile.IsoProfiles.Select(i => i.Latitude.BelowEv.Single(e => e.Snr == 10).PerPixel!.Value!.Value)];
        string lost = (ends[0] - ends[2]).ToString("0.00", System.Globalization.CultureInfo.InvariantCulture);

        Assert.StartsWith($"From ISO 100 to ISO 1600, 4.0 stops, the shadow end at SNR 10 comes nearer to middle grey by {lost} EV", ShadowEndChart.From(profile).Heading.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void From_Bounds_LeaveTheShadowSideOpen()
    {
        PlotSeries ten = ShadowEndChart.From(SampleStates.Of("bounds")).Panels[0].Series.Single(s => s.Label == "SNR 10");

        Assert.All(ten.Points, p => Assert.Equal(OpenSide.Shadow, p.Open));
        Assert.All(ten.Points, p => Assert.Null(p.LowerX95));
    }

    [Fact]
    public void From_AbsentFigures_IsEmpty() => Assert.True(ShadowEndChart.From(SampleStates.Of("absent")).IsEmpty);

    private static Finding Note(string code, int iso) => new() { Code = code, Severity = FindingSeverity.Note, Iso = iso, Message = "m", Remedy = "r" };
}
