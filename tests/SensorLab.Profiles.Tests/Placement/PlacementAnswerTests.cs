using System.Text;
using System.Text.Json.Nodes;
using SensorLab.Profiles.Placement;
using SensorLab.TestData;
using static SensorLab.Profiles.Tests.Placement.RoundProfile;

namespace SensorLab.Profiles.Tests.Placement;

public sealed class PlacementAnswerTests
{
    [Fact]
    public void Of_QuestionWithScene_AnswersEveryPart()
    {
        PlacementAnswer answer = PlacementAnswer.Of(Of(), new PlacementQuestion { Iso = 400, ToneEv = 2.2, Scene = new SceneRange(-3, 1.2), Light = "tungsten", GuardEv = 0.5 });

        FigureAssert.Is(0.9, TogetherEv, answer.HeadroomEv);
        Assert.False(answer.Clips);
        Assert.Equal(Math.Pow(2, 6.1), answer.Snr!.Value!.Value, 1e-9);
        FigureAssert.Is(2.6, TogetherEv, answer.BrightestTexturedEv);
        FigureAssert.Is(-4, TogetherEv, answer.DarkestTexturedEv);
        FigureAssert.Is(-2, TogetherEv, answer.DarkestCleanEv);
        FigureAssert.Is(-6.5, TogetherEv, answer.DarkestToneEv);
        Assert.True(answer.SceneFits);
        Assert.Equal(2.4, answer.Scene!.RoomEv!.Value!.Value, 1e-9);
        // The scene's bright end, 1.2, has 1.9 EV to go; its dark end gains half of that.
        Assert.Equal(-1.9, answer.ExposeToClip.CorrectionEv!.Value!.Value, 1e-9);
        Assert.Equal(0.95, answer.ExposeToClip.GainEv!.Value!.Value, 1e-9);
        Assert.Equal("R", answer.LimitingChannel);
        FigureAssert.IsAtMost(1.0, answer.HeadroomAnyLightEv);
    }

    [Fact]
    public void Of_NoScene_TakesToneAndDarkestTexturedShadow()
    {
        PlacementAnswer answer = PlacementAnswer.Of(Of(), new PlacementQuestion { Iso = 400, ToneEv = 2.2 });

        Assert.Null(answer.SceneFits);
        Assert.Null(answer.Scene);
        FigureAssert.Is(3.2 - (2.0 / 3), TogetherEv, answer.BrightestTexturedEv);
        Assert.Equal(-1, answer.ExposeToClip.CorrectionEv!.Value!.Value, 1e-9);
        Assert.Equal(0.5, answer.ExposeToClip.GainEv!.Value!.Value, 1e-9);
    }

    [Fact]
    public void Of_NumberThatIsNone_Throws()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => PlacementAnswer.Of(Of(), new PlacementQuestion { Iso = 400, ToneEv = double.NaN }));
        Assert.Throws<ArgumentOutOfRangeException>(() => PlacementAnswer.Of(Of(), new PlacementQuestion { Iso = 400, ToneEv = 0, GuardEv = -1 }));
    }

    [Fact]
    public void Cautions_EveryAnswer_StartsWithFlare() =>
        Assert.StartsWith("Sensor only: flare", Cautions(Iso())[0], StringComparison.Ordinal);

    [Fact]
    public void Cautions_CleanProfileUnderItsOwnLight_NameFlareAndOtherLightsAlone() => Assert.Equal(2, Cautions(Iso()).Count);

    [Fact]
    public void Cautions_WhatIsMissing_IsSaid()
    {
        Assert.Contains(Cautions(WithAbove(null)), c => c.StartsWith("Where the sensor saturates was not measured", StringComparison.Ordinal));
        Assert.Contains(Cautions(WithAbove(Figure.LowerBound(3))), c => c.StartsWith("Saturation is known as a bound only", StringComparison.Ordinal));
        Assert.Contains(Cautions(WithAbove(Figure.LowerBound(1))), c => c.StartsWith("Whether this tone clips is not known", StringComparison.Ordinal));
        Assert.Contains(Cautions(WithBelow(null)), c => c.StartsWith("The shadow end at SNR 10 was not measured", StringComparison.Ordinal));
    }

    [Fact]
    public void Cautions_BandsAboveTheShadowEnd_AreSaid()
    {
        IsoProfile iso = Iso();

        Assert.Contains(Cautions(iso with { Latitude = iso.Latitude with { BandsEndEv = Ev(3.5) } }), c => c.StartsWith("Bands show from -3.5 EV down", StringComparison.Ordinal));
        Assert.DoesNotContain(Cautions(iso with { Latitude = iso.Latitude with { BandsEndEv = Ev(4.5) } }), c => c.StartsWith("Bands", StringComparison.Ordinal));
    }

    [Fact]
    public void Cautions_NoMeter_IsSaid() =>
        Assert.Contains(PlacementAnswer.Of(SampleProfiles.Bounds(), new PlacementQuestion { Iso = 100, ToneEv = 0 }).Cautions, c => c.StartsWith("Middle grey was not metered", StringComparison.Ordinal));

    [Fact]
    public void Write_Answer_StartsWithTheContractsKeysInTheirOrder()
    {
        JsonObject document = Written(PlacementAnswer.Of(Of(), new PlacementQuestion { Iso = 400, ToneEv = 2.7, Scene = new SceneRange(-3, 2) }));

        Assert.Equal(
            ["iso", "toneEv", "headroomEv", "clips", "snr", "brightestTexturedEv", "darkestTexturedEv", "sceneFits", "exposeToClip"],
            document.Select(p => p.Key).Take(9));
        Assert.Equal(["value", "standardUncertainty", "lower95", "upper95"], document["headroomEv"]!.AsObject().Select(p => p.Key));
        Assert.Equal(["gainEv", "correctionEv"], document["exposeToClip"]!.AsObject().Select(p => p.Key));
        Assert.True(document["sceneFits"]!.GetValue<bool>());
    }

    [Fact]
    public void Write_ClippedToneWithoutScene_LeavesSnrOutAndWritesSceneFitsNull()
    {
        JsonObject document = Written(PlacementAnswer.Of(Of(), new PlacementQuestion { Iso = 400, ToneEv = 3.5 }));

        Assert.True(document["clips"]!.GetValue<bool>());
        Assert.False(document.ContainsKey("snr"));
        Assert.True(document.ContainsKey("sceneFits"));
        Assert.Null(document["sceneFits"]);
    }

    [Fact]
    public void Write_EverySampleProfileAndTone_IsWholeJson()
    {
        foreach (SensorProfile profile in new[] { SampleProfiles.ThreeIsos(), SampleProfiles.Monochrome(), SampleProfiles.Bounds(), SampleProfiles.HostileStrings() })
        {
            for (double tone = -10; tone <= 6; tone += 0.37)
            {
                PlacementQuestion question = new() { Iso = profile.IsoProfiles[0].Iso, ToneEv = tone, Scene = new SceneRange(tone - 3, tone) };

                Assert.Equal(tone, Written(PlacementAnswer.Of(profile, question))["toneEv"]!.GetValue<double>());
            }
        }
    }

    [Fact]
    public void Write_FaultyAnswer_NamesThePath()
    {
        PlacementAnswer answer = PlacementAnswer.Of(Of(), new PlacementQuestion { Iso = 400, ToneEv = 0 }) with { HeadroomEv = new Figure { AtLeast = double.NaN } };

        ArgumentException thrown = Assert.Throws<ArgumentException>(() => Written(answer));

        Assert.StartsWith("headroomEv.atLeast", thrown.Message, StringComparison.Ordinal);
    }

    private static IReadOnlyList<string> Cautions(IsoProfile iso) => PlacementAnswer.Of(Of(iso), new PlacementQuestion { Iso = 400, ToneEv = 2 }).Cautions;

    private static JsonObject Written(PlacementAnswer answer)
    {
        using MemoryStream stream = new();
        PlacementAnswerWriter.Write(answer, stream);
        string text = Encoding.UTF8.GetString(stream.ToArray());
        Assert.EndsWith("}\n", text, StringComparison.Ordinal);
        return JsonNode.Parse(text)!.AsObject();
    }
}
