using SensorLab.Profiles.Placement;
using SensorLab.TestData;
using static SensorLab.Profiles.Tests.Placement.RoundProfile;

namespace SensorLab.Profiles.Tests.Placement;

public sealed class LightTests
{
    // Channels saturate at R 3.5, G1 3.2, G2 3.25, B 3.0; tungsten moves R by +0.4 and B by −1.6, the lamp room R by −0.7 and B by +0.55.
    [Theory]
    [InlineData("tungsten", 3.1, "R")]
    [InlineData("lamp room", 2.45, "B")]
    public void AboveEv_NamedLight_IsTheFirstChannelThere(string light, double aboveEv, string channel)
    {
        EvAxis axis = EvAxis.Of(Of(), 400, light);

        FigureAssert.HasNormalInterval(aboveEv, TogetherEv, axis.AboveEv);
        Assert.Equal(channel, axis.LimitingChannel);
        FigureAssert.HasNormalInterval(aboveEv - 1, TogetherEv, axis.HeadroomEv(1));
    }

    [Fact]
    public void AboveEv_NoLightNamed_IsTheProfilesOwn()
    {
        EvAxis axis = EvAxis.Of(Of(), 400);

        FigureAssert.HasNormalInterval(3.2, TogetherEv, axis.AboveEv);
        Assert.Equal("G1", axis.LimitingChannel);
    }

    [Fact]
    public void AboveEv_FirstChannelIsALowerBound_IsALowerBound()
    {
        EvAxis axis = EvAxis.Of(Of(WithRed(Figure.LowerBound(3.0))), 400, "tungsten");

        FigureAssert.IsAtLeast(2.6, axis.AboveEv);
        Assert.Null(axis.LimitingChannel);
    }

    [Fact]
    public void AboveEv_LowerBoundAboveTheFirstChannel_DoesNotMatter()
    {
        EvAxis axis = EvAxis.Of(Of(WithRed(Figure.LowerBound(3.7))), 400, "tungsten");

        FigureAssert.Is(3.2, TogetherEv, axis.AboveEv);
        Assert.Equal("G1", axis.LimitingChannel);
    }

    [Fact]
    public void AboveEv_ChannelUnknownOrAtMost_IsAnUpperBound()
    {
        FigureAssert.IsAtMost(3.2, EvAxis.Of(Of(WithRed(null)), 400, "tungsten").AboveEv);
        FigureAssert.IsAtMost(2.5, EvAxis.Of(Of(WithRed(Figure.UpperBound(2.9))), 400, "tungsten").AboveEv);
        FigureAssert.IsAtMost(3.2, EvAxis.Of(Of(WithRed(Figure.UpperBound(3.9))), 400, "tungsten").AboveEv);
    }

    [Fact]
    public void AboveEv_LightWithoutAChannelsRatio_IsAnUpperBound()
    {
        SensorProfile profile = Of() with { Lights = [new LightRatios("dusk", new Dictionary<string, double> { ["G1"] = 0, ["G2"] = 0, ["R"] = 0.4 })] };

        FigureAssert.IsAtMost(3.1, EvAxis.Of(profile, 400, "dusk").AboveEv);
    }

    [Fact]
    public void AboveEv_NothingKnown_IsAbsent()
    {
        IsoProfile iso = Iso() with { Channels = [Channel("R", null), Channel("G1", null)] };

        Assert.Null(EvAxis.Of(Of(iso), 400, "tungsten").AboveEv);
    }

    [Fact]
    public void Of_UnknownLight_ThrowsAndNamesThoseThatAre()
    {
        ArgumentException thrown = Assert.Throws<ArgumentException>(() => EvAxis.Of(Of(), 400, "candle"));

        Assert.Contains("\"candle\"", thrown.Message, StringComparison.Ordinal);
        Assert.Contains("\"tungsten\", \"lamp room\"", thrown.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void AboveAnyLightEv_ColourSensor_IsGreensOwnAndNoLightExceedsIt()
    {
        Random random = new(7);
        FigureAssert.IsAtMost(3.2, EvAxis.Of(Of(), 400).AboveAnyLightEv);
        for (int trial = 0; trial < 200; trial++)
        {
            Dictionary<string, double> ratios = new() { ["R"] = (random.NextDouble() * 6) - 3, ["G1"] = 0, ["G2"] = 0, ["B"] = (random.NextDouble() * 6) - 3 };
            EvAxis axis = EvAxis.Of(Of() with { Lights = [new LightRatios("x", ratios)] }, 400, "x");

            Assert.True(axis.AboveEv!.Value <= axis.AboveAnyLightEv!.AtMost);
        }
    }

    [Fact]
    public void AboveAnyLightEv_MonochromeSensor_IsAbsent() => Assert.Null(EvAxis.Of(SampleProfiles.Monochrome(), 200).AboveAnyLightEv);

    private static IsoProfile WithRed(Figure? aboveEv)
    {
        IsoProfile iso = Iso();
        return iso with { Channels = [Channel("R", aboveEv), .. iso.Channels.Skip(1)] };
    }
}
