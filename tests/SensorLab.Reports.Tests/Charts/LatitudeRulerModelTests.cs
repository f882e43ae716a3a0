using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Tests.Samples;

namespace SensorLab.Reports.Tests.Charts;

public sealed class LatitudeRulerModelTests
{
    [Fact]
    public void From_ThreeIsos_EqualsGolden() =>
        GoldenModel.Verify("latitude-ruler", LatitudeRulerModel.From(SampleProfile.ThreeIsos()));

    [Fact]
    public void From_Profile_PutsEveryFigureOnTheAxis()
    {
        SensorProfile profile = SampleProfile.ThreeIsos();

        LatitudeRulerModel model = LatitudeRulerModel.From(profile);

        Assert.Equal("EV", model.Axis.Unit);
        foreach ((IsoProfile iso, LatitudeRow row) in profile.IsoProfiles.Zip(model.Rows))
        {
            Assert.Equal(iso.Iso, row.Iso);
            Assert.Equal(iso.Latitude.AboveEv!.Value, row.BrightEnd!.Value.Ev);
            Assert.Equal(iso.Latitude.AboveEv.Upper95, row.BrightEnd.Value.Upper95);
            Assert.Equal(iso.Latitude.FirstClipEv!.Value, row.FirstClip!.Value.Ev);
            Assert.Equal(iso.Previews[0].ClipEv!.Value, row.PreviewClip!.Value.Ev);
            Assert.Equal([40.0, 20.0, 10.0, 4.0, 1.0], row.ShadowEnds.Select(end => end.Snr));
            Assert.Equal(-iso.Latitude.BelowEv[2].PerPixel!.Value, row.ShadowEnd!.Value.Ev);
            Assert.All(row.Marks, mark => Assert.InRange(mark.Ev, model.Axis.Minimum, model.Axis.Maximum));
        }
    }

    [Theory]
    [InlineData(0.004, 0.02)]
    [InlineData(0.02, 0.05)]
    [InlineData(0.15, 0.5)]
    public void Lens_Uncertainty_IsTheSmallestThatHoldsEveryInterval(double uncertainty, double expectedHalf)
    {
        SensorProfile profile = SampleProfile.Of(new VirtualBody());
        IsoProfile iso = profile.IsoProfiles[0];
        IsoLatitude latitude = iso.Latitude with { AboveEv = SampleProfile.Known(3.3, uncertainty) };

        LatitudeRulerModel model = LatitudeRulerModel.From(profile with { IsoProfiles = [iso with { Latitude = latitude }] });

        Assert.Equal((-expectedHalf, expectedHalf), (model.Lens.Minimum, model.Lens.Maximum));
    }

    [Fact]
    public void From_Bounds_StayBounds()
    {
        LatitudeRulerModel model = LatitudeRulerModel.From(SampleStates.Of("bounds"));

        Assert.All(model.Rows, row => Assert.Equal(OpenSide.Highlight, row.BrightEnd!.Value.Open));
        Assert.All(model.Rows, row => Assert.Equal(OpenSide.Shadow, row.ShadowEnd!.Value.Open));
        Assert.Contains("at least +1.90", model.Heading.AlternativeText, StringComparison.Ordinal);
        Assert.Equal("No bright end was reached, only bounds are known. At SNR 10 only bounds of the shadow end are known.", model.Heading.Sentence);
    }

    [Fact]
    public void From_AbsentFigures_InventsNothing()
    {
        LatitudeRulerModel model = LatitudeRulerModel.From(SampleStates.Of("absent"));

        Assert.All(model.Rows, row => Assert.Empty(row.Marks));
        Assert.Equal("No bright end was measured. No shadow end at SNR 10 was measured.", model.Heading.Sentence);
    }

    [Fact]
    public void Sentence_OneIso_NamesChannelAndBothEnds()
    {
        string sentence = LatitudeRulerModel.From(SampleProfile.Of(new VirtualBody())).Heading.Sentence;

        Assert.Equal("At ISO 400 highlights end at +3.32 ±0.01 EV (channel G1 saturates first) and shadows fall to SNR 10 at −4.18 ±0.02 EV.", sentence);
    }

    [Fact]
    public void From_UnorderedIsos_AreOrdered()
    {
        SensorProfile profile = SampleProfile.ThreeIsos();

        LatitudeRulerModel model = LatitudeRulerModel.From(profile with { IsoProfiles = [.. profile.IsoProfiles.Reverse()] });

        Assert.Equal([100, 400, 1600], model.Rows.Select(row => row.Iso));
    }
}
